"""Loads that the coach should look at, before a class and over the board.

Comes in: flags. Goes out: which of them were read.
Knows canvas and controls.
"""
