"""The room's wall in a browser: one page, pushed to whoever was given its address.

Comes in: a club's folder, an address to listen on. Goes out: pages, events, and what the coach is
told of them. Knows following and what lies under it, and no terminal. It is a process of its own,
so that nothing that happens to it happens to a class.
"""
