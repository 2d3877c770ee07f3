"""Large letters: an outline font, dots, strokes.

Comes in: text and a box. Goes out: rows of cells.
Knows cells alone.
"""
