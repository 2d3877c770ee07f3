"""Home: which plan to run, which class to rejoin, what a new plan is made from.

Comes in: plans and journals. Goes out: what to open.
Knows the canvas and the controls.
"""
