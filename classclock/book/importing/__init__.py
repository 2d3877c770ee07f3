"""Old spreadsheets, made ready to go in.

Comes in: a table with names, benchmarks, scores and days. Goes out: a change, or findings.
Knows the book's files and tables.
"""
