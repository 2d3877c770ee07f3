"""Who and which benchmark a row means: what is near to a known name is asked about."""

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.likely import LikelyNames
from classclock.book.importing.old_row import FaultError
from classclock.book.importing.questions import Asking, PossibleAnswer
from classclock.records.class_entries import benchmark_key
from classclock.units.names import is_unnamed, tidy_name


class NameAsking:
    """First all rows are `met`, then each is asked about."""

    def __init__(self, known: BookKnown, asking: Asking) -> None:
        self._asking = asking
        self._names = LikelyNames(known.names)
        self._benchmarks = LikelyNames(known.kinds)

    def met(self, name: str, benchmark: str) -> None:
        """What a row says of both, as it is written."""
        self._names.met(tidy_name(name))
        self._benchmarks.met(benchmark_key(benchmark))

    def name(self, written: str, where: str) -> str:
        """Who is meant.

        Raises:
            FaultError: it is nobody's name.
            LeftOutError, WaitingError: as `Asking.answer` does.
        """
        name = tidy_name(written)
        if is_unnamed(name):
            raise FaultError(f"{name} is nobody's name", "Write who it was, or take the row out")
        return self._meant("name", name, self._names, where)

    def benchmark(self, written: str, where: str) -> str:
        """Which benchmark is meant, as it is compared. Raises: as `Asking.answer` does."""
        key = benchmark_key(written)
        return self._meant("benchmark", key, self._benchmarks, where)

    def _meant(self, what: str, written: str, likely: LikelyNames, where: str) -> str:
        """What is written, unless the coach says that something like it was meant."""
        near = likely.near(written)
        if not near:
            return written
        choices = [PossibleAnswer(one, f"yes, it is {one}") for one in near]
        new = PossibleAnswer(
            "new", "no, it is somebody new" if what == "name" else "no, it is a new one"
        )
        chosen = self._asking.answer(
            f"{what}:{written}",
            f"{written}: did you mean {' or '.join(near)}?",
            [*choices, new],
            where,
        )
        return written if chosen == "new" else chosen


def with_capitals(written: str, benchmark: str) -> str:
    """What the sheet has, unless the coach said that another was meant."""
    return tidy_name(written) if benchmark_key(written) == benchmark else benchmark
