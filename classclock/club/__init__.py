"""The club's folder: where its files are, and those that the coach writes, read from disk.

Comes in: a folder. Goes out: plans, movements, settings, or findings.
May know planning and what lies under it.
"""
