"""Why something isn't counted, in words that a coach uses, saying what to do instead."""

from msgspec import Struct


class Refusal(Struct, frozen=True):
    text: str
