"""Who was erased: an id that says nothing stands in their place."""

ERASED = "erased-"
"""How the id begins that stands where somebody asked to be erased."""
