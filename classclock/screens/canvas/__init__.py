"""How anything is drawn: cells, letters, bars, colours, layout.

Comes in: plain values and a size. Goes out: rows of cells.
Knows wall's values, no class and no page.
"""
