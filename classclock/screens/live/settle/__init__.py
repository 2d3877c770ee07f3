"""The settle: each lane's score, and who is still to be asked.

Comes in: wall's values. Goes out: cells.
Knows the canvas and its layout.
"""
