"""What is the system's and not the club's: locks, syncing, clocks, signals, power, terminal.

Linux, macOS and Windows differ in here only: nowhere else is asked which of them it is.

Comes in: paths and bytes. Goes out: what the system did with them.
May know units.
"""
