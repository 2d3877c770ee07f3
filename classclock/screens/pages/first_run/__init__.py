"""The first run: a few questions, then the club's settings are written.

Comes in: answers. Goes out: `club.toml`.
Knows the canvas, the controls and the card.
"""
