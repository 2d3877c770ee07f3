"""A plan being written by keys.

Comes in: a draft. Goes out: edits of its text.
Knows the canvas and the controls.
"""
