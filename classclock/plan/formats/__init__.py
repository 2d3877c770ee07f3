"""The formats, a module each: its keys, its clock, how it is counted, its words, its first draft.

Comes in: a segment of a plan. Goes out: spans, cues and the rules of counting, as plain values.
Knows what a plan's keys can hold, and the clock's spans and cues.
"""
