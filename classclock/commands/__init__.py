"""The command line: one module a command, loaded only when that command is asked for.

`command_line.py` is the table of them; `book/` has one module an action; `shared/` what several
need. No command knows another.

Comes in: arguments. Goes out: text or JSON, and an exit status.
May know everything.
"""
