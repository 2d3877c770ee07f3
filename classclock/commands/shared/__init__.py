"""What several commands share, one thing a module.

Comes in: what a command line asks. Goes out: the club, plan or book it speaks of, lines printed.
May know everything but the commands themselves.
"""
