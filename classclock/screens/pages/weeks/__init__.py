"""The last weeks: patterns, hard pieces, what is planned.

Comes in: what the book answers. Goes out: cells.
Knows the canvas and the controls.
"""
