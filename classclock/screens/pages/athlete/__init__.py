"""An athlete's page.

Comes in: what the book answers. Goes out: cells.
Knows the canvas and the controls.
"""
