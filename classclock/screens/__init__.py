"""The Textual app: one screen after the other, in cells.

Comes in: keys and clicks. Goes out: what the coach meant, and pictures of how it stands.
May know everything but commands.
"""
