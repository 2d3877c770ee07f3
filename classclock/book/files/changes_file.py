"""Where changes stand, and that they are damaged: whoever only asks for that loads no more."""

NAME = "changes.jsonl"


class ChangesDamagedError(Exception):
    """A line can't be read; `str` says which, in plain words."""
