"""A live class timer and tally board for the coach of a small gym."""

__version__ = "0.1.0"
