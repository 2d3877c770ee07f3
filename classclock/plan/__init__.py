"""What the coach writes down: the plan file, read and checked."""
