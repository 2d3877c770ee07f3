"""What the coach writes down: plans, movements, the club's settings; read, checked, edited.

Comes in: text. Goes out: models, or findings that say what to write instead.
May know clock and units. Pure: it opens no file.
"""
