"""The key language: what the coach types, and what is meant by it.

Comes in: strokes, their moments, the phase. Goes out: commands.
Knows the tally's commands and its pieces.
"""
