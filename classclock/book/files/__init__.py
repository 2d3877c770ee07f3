"""The journal of a class, its results, the changes that no class made: one writer, one reader.

Comes in: events, records, changes. Goes out: the same, read again.
Knows no table.
"""
