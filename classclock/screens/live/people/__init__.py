"""Who is here, between any two pieces: come, gone, named, options, loads, marks, places.

Comes in: signs, and the class. Goes out: what became of it, and cells.
Knows the lists of people, the canvas and the controls.
"""
