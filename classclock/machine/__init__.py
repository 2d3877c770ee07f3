"""What is the system's and not the club's: files written whole, locks, signals, power, terminal.

Comes in: paths and bytes. Goes out: what the system did with them.
May know units.
"""
