"""The club's settings: units, bars, plates, TV, keyboard, emergency card.

Comes in: `club.toml` as text. Goes out: a club, or every finding with its line.
Knows how a plan is read.
"""
