"""Pages about what was done: values, then text, CSV and HTML.

Comes in: what the book answers. Goes out: pages.
May know book and what lies under it.
"""
