"""Loads, maxima, working loads, and which plates go on which bar."""
