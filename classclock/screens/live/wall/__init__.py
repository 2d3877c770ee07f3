"""The wall while a clock runs: the clock, what is being done, the lanes.

Comes in: wall's values. Goes out: cells.
Knows the canvas.
"""
