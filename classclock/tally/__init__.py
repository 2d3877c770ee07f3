"""The count: events, the sheet folded from them, and what the coach's commands come to.

Comes in: commands with their moments. Goes out: events, or refusals that say what to do.
May know plan, clock, strength and units. Pure.
"""
