"""What the room sees, as plain values, and who may see it: no terminal, no browser.

Comes in: a class and the club's book. Goes out: words, bars and hues.
May know live and what lies under it; no drawing.
"""
