"""Everybody's bests on the benchmarks, in a terminal and to pin up.

Comes in: what the book says of bests. Goes out: values, text, pages, tables.
May know what the other pages know.
"""
