"""Pages before and after a class, each in a room of its own that knows no other page.

Comes in: signs. Goes out: what was chosen.
Knows canvas, controls, card and the book.
"""
