"""The coach's own screen: everybody in one view, and what the coach alone reads.

Comes in: its content. Goes out: cells, and clicks on lanes.
Knows live, the canvas and the wall's heading; no command, no key.
"""
