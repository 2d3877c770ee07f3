"""The end of a class: every piece with its scores, and where they are kept.

Comes in: wall's values. Goes out: cells.
Knows the canvas, and the settle's table.
"""
