"""What can't be told from a sheet: asked once for all that it holds for, never guessed."""

from collections.abc import Mapping, Sequence

from msgspec import Struct

_SHOWN = 3
"""So many places are named; of the others it is said how many there are."""


class PossibleAnswer(Struct, frozen=True):
    value: str
    """As it is typed behind `--answer`."""
    words: str


LEAVE_OUT = PossibleAnswer("leave-out", "leave these rows out")


class SheetQuestion(Struct, frozen=True):
    key: str
    """What tells it from the others, as it is typed behind `--answer`."""
    words: str
    choices: tuple[PossibleAnswer, ...]
    examples: tuple[str, ...]
    """The first of what it is about, with their places."""
    more: int = 0
    """How many others it is about."""

    @property
    def about(self) -> str:
        """`723 (line 5), 688 (line 9), and 4 more`."""
        return ", ".join((*self.examples, *([f"and {self.more} more"] if self.more else [])))


def of_all_such(key: str) -> str:
    """What answers all questions of its kind that aren't answered one by one: `name:*`."""
    return f"{key.partition(':')[0]}:*"


class WaitingError(Exception):
    """What is read waits for an answer."""


class LeftOutError(Exception):
    """The coach said that it is to be left out."""


class Asking:
    """Gives the answers that there are, and collects what is still to be asked."""

    def __init__(self, answers: Mapping[str, str]) -> None:
        """`answers`: by a question's key, what was chosen."""
        self._answers = answers
        self._asked: dict[str, SheetQuestion] = {}
        self._met: set[str] = set()

    def answer(
        self,
        key: str,
        words: str,
        choices: Sequence[PossibleAnswer],
        example: str,
        *,
        leave: bool = True,
    ) -> str:
        """What was chosen. `leave`: whether the rows may be left out instead.

        Raises:
            LeftOutError: that they are to be left out was chosen.
            WaitingError: nothing was chosen yet; it will be asked.
        """
        every = (*choices, *([LEAVE_OUT] if leave else []))
        of_all = of_all_such(key)
        self._met |= {key, of_all}
        chosen = self._answers.get(key, self._answers.get(of_all))
        if chosen in {one.value for one in every}:
            if chosen == LEAVE_OUT.value:
                raise LeftOutError
            return str(chosen)
        self._ask(key, words, every, example)
        raise WaitingError

    def later(self, key: str) -> None:
        """That question comes once others are answered: its answer may be said ahead."""
        self._met |= {key, of_all_such(key)}

    def _ask(self, key: str, words: str, choices: tuple[PossibleAnswer, ...], example: str) -> None:
        before = self._asked.get(key)
        if before is None:
            self._asked[key] = SheetQuestion(key, words, choices, (example,) if example else ())
        elif len(before.examples) < _SHOWN:
            examples = (*before.examples, example)
            self._asked[key] = SheetQuestion(key, words, before.choices, examples)
        else:
            self._asked[key] = SheetQuestion(
                key, words, before.choices, before.examples, before.more + 1
            )

    @property
    def questions(self) -> tuple[SheetQuestion, ...]:
        return tuple(self._asked.values())

    @property
    def not_asked(self) -> tuple[str, ...]:
        """The keys of answers that no question asked for."""
        return tuple(key for key in self._answers if key not in self._met)
