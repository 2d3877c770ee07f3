"""One class as it runs: the shell round the count, its keys, its session, a rehearsal.

Comes in: keys and time. Goes out: events, written before anything shows them.
May know book, sound and what lies under them; no screen.
"""
