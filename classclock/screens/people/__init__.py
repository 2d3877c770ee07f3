"""People in a list: who is found by typing, what each modifies, what is asked about one of them.

Comes in: people, and signs. Goes out: lines, choices, cells.
Knows the canvas and the controls.
"""
