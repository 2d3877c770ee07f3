"""Where everything on a screen stands and how large it is: one rule (`arrange`) for all of them.

Comes in: parts with their roles, a box, what letters measure. Goes out: a spot for each part.
Knows no letters, no cells and no class.
"""
