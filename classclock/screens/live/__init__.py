"""A class on the screen: keys to the class, what came of them to the views.

Comes in: a session. Goes out: the wall, as it stands.
Knows canvas, controls, card and flags; no page.
"""
