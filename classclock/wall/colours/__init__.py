"""Every colour and what it means, for a terminal and for a page alike.

Comes in: nothing. Goes out: themes by their roles, mixtures, contrasts.
Knows nothing but hues.
"""
