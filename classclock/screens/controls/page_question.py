"""A question that a page of its own asks, in words."""

from msgspec import Struct


class PageQuestion(Struct, frozen=True):
    question: str
    why: str
    keys: str
