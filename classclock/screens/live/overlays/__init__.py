"""What opens over a class: help, questions, lines to type into.

Comes in: signs. Goes out: messages to the class's screen.
Knows canvas and controls.
"""
