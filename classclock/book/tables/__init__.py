"""The book's tables, filled from the files step by step or all anew.

Comes in: results files and changes. Goes out: rows, and values asked of them.
Knows the book's files.
"""
