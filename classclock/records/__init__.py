"""What somebody has done, as plain values: results, bests, attendance.

Comes in: the lanes of a class that is over. Goes out: what each is worth beside the others.
May know tally and what lies under it. Pure.
"""
