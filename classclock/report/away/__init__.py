"""Who hasn't come for weeks, for the coach.

Comes in: what the book says of when people last came. Goes out: values and text.
May know what the other pages know.
"""
