"""The foot of a class's screen: what was said, the keys, the time.

Comes in: words. Goes out: cells.
Knows the canvas.
"""
