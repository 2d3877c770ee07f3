"""Free text in which a name stands: what it says, where, and what becomes of it unless asked."""

from collections.abc import Iterable, Mapping
from pathlib import Path

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.book.erasing.scrubbing import FreeText, TextKind

KIND_WORDS: dict[TextKind, str] = {
    "note": "a note",
    "emergency": "a line on the emergency card",
    "reason": "a reason of a correction",
    "flag": "a flag on a load",
    "plan": "a plan",
    "file name": "the name of an imported file",
}
"""What a text is called."""


class Mention(Struct, frozen=True):
    kind: TextKind
    text: str
    where: tuple[Path, ...]
    goes: bool
    """Whether the name is taken out of it."""


class Mentions(Struct):
    """The texts as they are found, file by file."""

    mentions: dict[FreeText, Mention] = field(default_factory=dict)

    def add(self, path: Path, texts: Iterable[FreeText], *, of_another: bool = False) -> None:
        """`of_another`: in this file the name is most likely somebody else's."""
        for text in texts:
            known = self._known(text)
            before = self.mentions.get(known, Mention(known.kind, known.text, where=(), goes=False))
            where = before.where if path in before.where else (*before.where, path)
            goes = before.goes or (known.kind != "plan" and not of_another)
            self.mentions[known] = replace(before, where=where, goes=goes)

    def in_order(self) -> tuple[Mention, ...]:
        """Those that lose the name first, each kind together."""
        kinds = list(KIND_WORDS)
        every = self.mentions.values()
        return tuple(sorted(every, key=lambda one: (not one.goes, kinds.index(one.kind), one.text)))

    def _known(self, text: FreeText) -> FreeText:
        """The same as it was found before: results say more behind a reason, and less of a plan."""
        for known in self.mentions:
            if known.kind != text.kind:
                continue
            if text.kind == "plan" and text.text in known.text:
                return known
            if text.kind == "reason" and text.text.startswith(known.text):
                return known
        return text


def answered(mentions: Iterable[Mention], answers: Mapping[int, bool]) -> tuple[Mention, ...]:
    """As the coach wants it: by their numbers, from 1, whether the name goes."""
    return tuple(
        replace(one, goes=answers.get(number, one.goes)) for number, one in enumerate(mentions, 1)
    )


def staying(mentions: Iterable[Mention], *kinds: TextKind) -> frozenset[str]:
    return frozenset(one.text for one in mentions if not one.goes and one.kind in kinds)


def going(mentions: Iterable[Mention], *kinds: TextKind) -> frozenset[str]:
    return frozenset(one.text for one in mentions if one.goes and one.kind in kinds)
