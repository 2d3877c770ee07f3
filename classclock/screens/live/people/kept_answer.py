"""What came of a typed answer: a question wants words for it, the class's foot all of it."""

from collections.abc import Callable

from classclock.live.live_class import Outcome


class KeptAnswer:
    def __init__(self) -> None:
        self.outcome = Outcome()
        """Of the answer that was carried out last."""

    def of(self, do: Callable[[str], Outcome]) -> Callable[[str], str]:
        """The same, as a question calls it."""

        def done(typed: str) -> str:
            self.outcome = do(typed)
            return self.outcome.text

        return done
