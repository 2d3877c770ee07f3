"""Loads, and (later) maxima, working loads and bar loading."""
