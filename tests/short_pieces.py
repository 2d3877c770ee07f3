"""A class of short pieces, for whatever comes after them."""

from collections.abc import Iterable


def short_pieces(names: Iterable[str]) -> str:
    """The plan: a minute each."""
    return 'title = "Short ones"\n' + "".join(
        f"""
[[segment]]
name = "{name}"
format = "rounds-in-time"
time = "1:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
"""
        for name in names
    )
