"""The end of a class: one piece after the other with its scores, and where they are kept.

Comes in: wall's values. Goes out: cells.
Knows the canvas and its layout, and the settle's table.
"""
