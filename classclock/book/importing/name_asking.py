"""Who and which benchmark a row means: what is near to a known name is asked about."""

import re
from collections.abc import Mapping

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.likely import LikelyNames
from classclock.book.importing.old_row import FaultError
from classclock.book.importing.questions import Asking, PossibleAnswer
from classclock.records.class_entries import benchmark_key
from classclock.units.names import is_unnamed, name_key, tidy_name
from classclock.units.spelling import plain_words

_TOGETHER = re.compile(r"\S\s*[+&]\s*\S")
"""Nobody's name has one of these."""
_LISTED = re.compile(r"\s*[,;/]\s*|\s+and\s+", re.IGNORECASE)
"""Between the names of several, or within the name of one."""


class NameAsking:
    """First all rows are `met`, then each is asked about."""

    def __init__(self, known: BookKnown, asking: Asking) -> None:
        self._asking = asking
        self._names = LikelyNames(known.names)
        self._benchmarks = LikelyNames(known.kinds)
        self._spelled = {plain_words(key): key for key in known.kinds}
        self._called = dict(known.called)
        self._people = {name_key(name) for name in known.names}

    def met(self, name: str, benchmark: str, times: int) -> None:
        """What so many rows say of both, as it is written."""
        self._names.met(tidy_name(name), times)
        self._people.add(name_key(name))
        key = self._key(benchmark)
        self._benchmarks.met(key, times)
        self._called.setdefault(key, tidy_name(benchmark))

    def name(self, written: str, where: str) -> str:
        """Who is meant.

        Raises:
            FaultError: it is nobody's name.
            LeftOutError, WaitingError: as `Asking.answer` does.
        """
        name = tidy_name(written)
        if is_unnamed(name):
            raise FaultError(f"{name} is nobody's name", "Write who it was, or take the row out")
        if self._are_several(name):
            raise FaultError(
                f"{name} is more than one person",
                "A shared score is nobody's best: take the row out, or write one name",
            )
        return self._meant("name", name, self._names, {}, where)

    def benchmark(self, written: str, where: str) -> str:
        """Which benchmark is meant, as it is compared. Raises: as `Asking.answer` does."""
        key = self._key(written)
        return self._meant("benchmark", key, self._benchmarks, self._called, where)

    def called(self, benchmark: str) -> str:
        """What a benchmark is called in the book, or in the sheet."""
        return self._called.get(benchmark, benchmark)

    def _key(self, written: str) -> str:
        """As it is compared: a hyphen where the book has a space makes no other benchmark."""
        key = benchmark_key(written)
        if self._benchmarks.knows(key):
            return key
        return self._spelled.get(plain_words(key), key)

    def _are_several(self, name: str) -> bool:
        if _TOGETHER.search(name):
            return True
        parts = [name_key(part) for part in _LISTED.split(name)]
        return len(parts) > 1 and self._people.issuperset(parts)

    def _meant(
        self,
        what: str,
        written: str,
        likely: LikelyNames,
        called: Mapping[str, str],
        where: str,
    ) -> str:
        """What is written, unless the coach says that something like it was meant."""
        near = likely.near(written)
        if not near:
            return written
        names = [called.get(one, one) for one in near]
        choices = [
            PossibleAnswer(one, f"yes, it is {name}") for one, name in zip(near, names, strict=True)
        ]
        new = PossibleAnswer(
            "new", "no, it is somebody new" if what == "name" else "no, it is a new one"
        )
        chosen = self._asking.answer(
            f"{what}:{written}",
            f"{called.get(written, written)}: did you mean {' or '.join(names)}?",
            [*choices, new],
            where,
        )
        return written if chosen == "new" else chosen


def with_capitals(written: str, benchmark: str) -> str:
    """What the sheet has, unless the coach said that another was meant."""
    same = plain_words(written) == plain_words(benchmark) or benchmark_key(written) == benchmark
    return tidy_name(written) if same else benchmark
