"""What the coach alone reads: who is doubtful and why, who is asked next, how to take back.

Comes in: a class, and what was noted in it. Goes out: rows and lines, as plain values.
Knows wall/seen and what lies under it; no drawing. None of it is ever told to whoever follows.
"""
