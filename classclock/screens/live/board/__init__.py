"""The board: the plan of the next segment, explained from the wall.

Comes in: wall's values. Goes out: cells.
Knows the canvas.
"""
