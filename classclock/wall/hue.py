"""How a lane is doing, as a hue says it; a word or a number always says it too."""

from typing import Literal

Hue = Literal["ahead", "level", "behind", "first"]
"""Against the lane's own best; `first` is a first time, with nothing to compare."""
