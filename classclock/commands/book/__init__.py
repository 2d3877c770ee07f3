"""The command `book`: what is remembered is put right, taken in, given out; one module an action.

Comes in: arguments. Goes out: text or JSON, and an exit status.
May know what its room may.
"""
