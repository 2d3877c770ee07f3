"""What several commands share, one thing a module.

Comes in: what a command line asks. Goes out: the club, the plan or the book that it speaks of, and
lines on the terminal.
May know everything but the commands themselves.
"""
