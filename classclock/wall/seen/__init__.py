"""A class as the room sees it: what is asked of it, which screen is up, what its keys put there.

Comes in: a class, running or followed. Goes out: which screen, the wall's content, which page.
Knows wall and what lies under it.
"""
