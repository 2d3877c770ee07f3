"""Cues that are heard: a player process of its own, so that a busy screen can't delay a beep."""
