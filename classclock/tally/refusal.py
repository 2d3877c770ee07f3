"""Why something isn't counted, in words that a coach uses, saying what to do instead."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Refusal:
    text: str
