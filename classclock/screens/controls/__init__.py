"""What a coach types into, and moves about in.

Comes in: signs. Goes out: text, and where one stands in it.
Knows the canvas.
"""
