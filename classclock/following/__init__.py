"""A class that another process runs, followed from its files; it notices nothing of that.

Comes in: a club's folder. Goes out: the class as the room may see it, as `wall` asks for it.
Knows wall and what lies under it; writes nothing but what a class tells those that follow it.
"""
