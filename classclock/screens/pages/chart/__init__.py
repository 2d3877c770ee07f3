"""The chart: everybody's bests.

Comes in: what the book answers. Goes out: cells, and whose page to open.
Knows the canvas and the controls.
"""
