"""The command line: one module a command.

Comes in: arguments. Goes out: text or JSON, and an exit status.
May know everything.
"""
