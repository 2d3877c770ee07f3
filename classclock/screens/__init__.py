"""The Textual app: screens, widgets, and what they draw."""
