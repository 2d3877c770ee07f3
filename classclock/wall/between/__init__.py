"""What is shown between two pieces: who is here, and what each does next.

Comes in: a class. Goes out: people, with words that the room may read.
Knows live and what lies under it; no drawing.
"""
