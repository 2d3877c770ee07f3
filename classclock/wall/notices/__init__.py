"""What is said to the coach at the foot of a class's screen: in which order, and for how long.

Comes in: words with their weight, and moments. Goes out: the one row that can be read now.
May know live and what lies under it; no drawing.
"""
