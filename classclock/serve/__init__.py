"""The room's wall in a browser: one page, pushed to whoever was given its address.

Comes in: a club's folder, an address to listen on. Goes out: pages, events, what the coach is told.
Knows following and what lies under it, and no terminal; a process of its own, so no class is hurt.
"""
