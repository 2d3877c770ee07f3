"""How a segment's clock runs in each format: its timeline and its cues.

Comes in: a segment of a plan. Goes out: spans and cues at set moments.
Knows the plan's model and the clock's timeline.
"""
