"""Whom the flags of people are about: those who are here, and what each chose, piece by piece."""

from collections.abc import Mapping, Sequence
from typing import Protocol

from msgspec import UnsetType

from classclock.plan.model import Plan
from classclock.tally.lanes import Choice, Person, Portion
from classclock.units.loads import Unit


class PeopleHere(Protocol):
    @property
    def plan(self) -> Plan: ...
    @property
    def unit(self) -> Unit: ...
    @property
    def people(self) -> Sequence[Person]: ...

    def choice(self, ident: str, segment: int) -> Choice:
        """What somebody modifies in a segment."""

    def to_choose(self) -> Sequence[int]:
        """The segments for which something can still be chosen."""

    def agree(self, ident: str, portions: Mapping[int, Portion | UnsetType]) -> None:
        """Let somebody do so much of these segments; unsaid is all of it. Options stay."""
