"""The command line: one module a command, loaded only when asked for; none knows another.

Comes in: arguments. Goes out: text or JSON, and an exit status.
May know everything.
"""
