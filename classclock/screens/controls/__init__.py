"""What a coach types into and moves about in, and a page that takes one key after the other.

Comes in: signs. Goes out: text, where one stands in a list, what was read meanwhile.
Knows the canvas.
"""
