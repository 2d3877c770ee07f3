"""Time: the one door through which it comes in, timelines as data, the engine that wakes for cues.

Comes in: a source of time and a timeline. Goes out: readings and cues, in whole milliseconds.
May know units and machine. Pure but for the engine, which waits.
"""
