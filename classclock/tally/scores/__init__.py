"""Scores, ranks, and what a lane is on for.

Comes in: tallies. Goes out: scores as people read them, in the order of their ranks.
Knows the tally's values alone.
"""
