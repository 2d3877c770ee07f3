"""Plans being written, as files: opened, kept safe at every key, saved.

Comes in: a plan, a class that was held, a format. Goes out: text on disk.
May know book and what lies under it.
"""
