"""Writing a plan: its text in parts, edits of them, and what to type for a value."""
