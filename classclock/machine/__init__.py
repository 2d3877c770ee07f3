"""What differs between Linux, macOS and Windows: locks, syncing, clocks, signals, power, terminal.

Comes in: paths and bytes. Goes out: what the system did with them.
May know units.
"""
