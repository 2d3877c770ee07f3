"""Values that every room speaks in: loads, times, plates, names as people write them, safe text.

Comes in: what was written or typed. Goes out: whole numbers and text fit for a terminal.
Knows no other room.
"""
