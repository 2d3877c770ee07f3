"""The room's wall of a class that another process runs: its views, and what is said beside them.

Comes in: a follower. Goes out: the wall, as it stands. Takes no keys but those that leave, and `?`.
Knows live, card, controls and canvas; no page.
"""
