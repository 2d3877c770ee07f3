"""A clock without a plan, before a class: the line that says it.

Comes in: keys. Goes out: the segment to run.
Knows the canvas and the controls.
"""
