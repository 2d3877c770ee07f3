"""A month on one page: who came how often, new bests, goals reached, first times.

Comes in: what the book says of a month's days. Goes out: the page as values, text and HTML.
May know what the other pages know.
"""
