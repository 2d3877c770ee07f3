"""Why the book can't be used."""


class BookError(Exception):
    """The book can't be used; `str` says why and what to do, in plain words."""


class DamagedBookError(BookError):
    """Its file is no book."""
