"""A person taken out of everything in reach, on request.

Comes in: who. Goes out: files and tables without them, and what was out of reach.
Knows the book's files and tables.
"""
