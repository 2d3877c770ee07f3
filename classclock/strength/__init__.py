"""Maxima, working loads, and which plates go on which bar.

Comes in: loads, a plan, what was lifted before. Goes out: loads that the club can make.
May know plan and units. Pure.
"""
