"""The sample class, whose athletes call their rounds by themselves.

Comes in: a seed. Goes out: a class, and keys typed into it.
May know live and what lies under it.
"""
