"""Writing a plan: its text in parts, edits of them, and what to type for a value.

Comes in: text and an edit. Goes out: the new text, all else as it stood.
Knows the plan's model and how it is read.
"""
