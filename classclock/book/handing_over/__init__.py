"""Everything that is kept about one person, to hand over: theirs alone.

Comes in: who. Goes out: files, with nobody else's name, score or key in them.
Knows the book's files and tables.
"""
