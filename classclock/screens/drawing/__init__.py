"""Pictures made of terminal cells: plain values in, rows of segments out. No widget, no state."""
