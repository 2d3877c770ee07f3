"""Cues that are heard: a player process of its own, so that a busy screen can't delay a beep.

Comes in: cues at moments of the raw clock. Goes out: sound, and what was left out.
May know clock, machine and units.
"""
