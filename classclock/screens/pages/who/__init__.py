"""Who is here, what each will modify, and when the class ends.

Comes in: who is known. Goes out: the people of a class.
Knows the canvas and the controls.
"""
