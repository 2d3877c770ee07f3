"""Time: the source it comes from, a segment's timeline, and the engine that wakes for its cues."""
