"""A live class timer and tally board for the coach of a small gym."""
