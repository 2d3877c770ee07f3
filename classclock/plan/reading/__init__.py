"""Reading a plan's TOML to the end, though there are faults in it.

Comes in: text or bytes. Goes out: a plan, or every finding with its line.
Knows the plan's model; it opens no file.
"""
