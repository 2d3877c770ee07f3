"""The ways to sound a cue.

Comes in: an agenda of cues. Goes out: samples to a sound card, or to nothing.
Knows the agenda and the sounds.
"""
