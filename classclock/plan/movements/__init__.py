"""The movements that a club knows, and a plan completed from them.

Comes in: `movements.toml` as text, a plan. Goes out: a library, the completed plan.
Knows the plan's model and how it is read.
"""
