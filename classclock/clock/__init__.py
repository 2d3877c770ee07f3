"""Time: the one door through which it comes in, timelines and cues as data, the engine for both.

Comes in: a source of time and a timeline. Goes out: readings and cues, in whole milliseconds.
May know units and machine. Pure but for the engine, which waits.
"""
