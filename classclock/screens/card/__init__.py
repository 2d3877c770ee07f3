"""The emergency card: shown over a class, filled in before one.

Comes in: the club's card. Goes out: its lines, drawn or asked for.
Knows canvas and controls.
"""
