"""How hard a class was for somebody: what the numbers mean, and how long the class lasted for them.

Comes in: a class's record. Goes out: words, milliseconds.
Knows the tally's record and its sheets.
"""
