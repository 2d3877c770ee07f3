"""What happens in the made class, from its first board to its end; time is wound by hand."""

from collections.abc import Callable, Iterator
from typing import Literal, get_args

from classclock.clock.source import MS, WoundSource
from classclock.live.session import Session
from classclock.tally.sheet import Sheet
from readable.made_plan import SETS, load

State = Literal[
    "warm-up",
    "board",
    "teaching",
    "sharing",
    "people",
    "count-in",
    "running",
    "held",
    "card",
    "time",
    "settle",
    "board, scheme",
    "running, scheme",
    "all in",
    "settle, times",
    "running, steps",
    "board, lift",
    "running, lift",
    "rest, lift",
    "settle, lift",
    "end",
]
STATES: tuple[State, ...] = get_args(State)
_APART = 2
"""Seconds between two strokes, so that none is taken for a key held down."""


class Script:
    """Types what coach and athletes do; stops at each state."""

    def __init__(
        self, session: Session, source: WoundSource, press: Callable[[str], None], slower: int
    ) -> None:
        """`slower` is by how many seconds each round of each takes longer."""
        self._session, self._source, self._press, self._slower = session, source, press, slower
        self._keys = [person.key for person in session.live.record.people]

    def states(self) -> Iterator[State | None]:
        """Each state as it is reached; what comes after it happens when the next one is asked.

        None: only what the clock brings is to be waited for.
        """
        yield from self._warm_up()
        yield from self._rounds()
        yield from self._scheme()
        yield from self._steps()
        yield from self._lift()
        self._lap()
        yield "end"

    def _warm_up(self) -> Iterator[State]:
        self._type("<enter>")
        self._wind(70)
        yield "warm-up"
        self._type("<space>", "<enter>", "<enter>")

    def _rounds(self) -> Iterator[State | None]:
        yield "board"
        self._type("<tab>")
        yield "teaching"
        self._type("<escape>", "<ctrl+t>")
        yield "sharing"
        self._type("<escape>", "<ctrl+p>")
        yield "people"
        self._type("<escape>", "<enter>")
        self._wind(2)
        yield "count-in"
        calls = sorted(
            (at, key)
            for number, key in enumerate(self._keys)
            for each in [58 + self._slower + 5 * (number % 9)]
            for at in range(each, 600, each)
        )
        shown = 402
        self._call([call for call in calls if call[0] <= shown - 10])
        yield None  # the word of a cue that has come goes
        self._call([call for call in calls if shown - 10 < call[0] <= shown])
        self._until(shown)
        yield "running"
        self._type("<space>")
        yield "held"
        self._type("!")
        yield "card"
        self._type("<escape>", "<space>")
        self._call([call for call in calls if call[0] > shown + 3])
        self._until(601)
        yield "time"
        self._until(604)
        for number, key in enumerate(self._keys[: len(self._keys) // 2]):
            self._type(*str(2 + number % 9), key)
        yield "settle"
        self._type("*", "<enter>")
        self._on_to("Third Rail")

    def _scheme(self) -> Iterator[State]:
        yield "board, scheme"
        self._type("<enter>")
        calls = sorted(
            (at + 5 * number + done * self._slower, key)
            for number, key in enumerate(self._keys)
            for done, at in enumerate((130, 230, 310))
        )
        shown = 312 if len(self._keys) > 1 else 300  # somebody is through, if that isn't all
        self._call([call for call in calls if call[0] <= shown])
        self._until(shown)
        yield "running, scheme"
        self._call([call for call in calls if call[0] > shown])
        self._wind(3)
        yield "all in"
        self._wind(12)
        yield "settle, times"
        self._type("*", "<enter>")
        self._on_to("Signal Box")

    def _steps(self) -> Iterator[State | None]:
        self._type("<enter>")
        self._until(50)
        yield None  # the board goes, and with it what its keys turn
        self._type("<space>")
        for number, key in enumerate(self._keys):
            self._type(*str(9 + number % 7), key)
        self._type("<space>")
        self._until(75)
        yield "running, steps"
        self._until(230)
        self._type("*", "<enter>")
        self._on_to("Back squat")

    def _lift(self) -> Iterator[State]:
        for number, key in enumerate(self._keys):
            for one in range(1, SETS + 1):
                self._type(*f"{one}:{load(number, one)}", key)
        yield "board, lift"
        self._type("<enter>")
        self._until(20)
        yield "running, lift"
        self._call([(40, key) for key in self._keys])
        self._until(70)
        yield "rest, lift"
        self._call([(220, key) for key in self._keys])
        self._call([(400, key) for key in self._keys[::2]])
        self._until(600)
        yield "settle, lift"
        self._type("*", "<enter>")
        self._on_to("Yard lap")

    def _lap(self) -> None:
        self._type("<enter>")
        self._call([(95 + 3 * number + self._slower, key) for number, key in enumerate(self._keys)])
        self._wind(15)
        self._type("*", "<enter>")
        for _ in range(3):
            if not self._session.live.record.closed:
                self._type("<enter>")

    # -- keys and time -----------------------------------------------------------------

    @property
    def _sheet(self) -> Sheet:
        sheet = self._session.live.record.sheet
        if sheet is None:
            raise RuntimeError("no piece has begun")
        return sheet

    def _type(self, *signs: str) -> None:
        for sign in signs:
            self._press(sign)
            self._wind(_APART)

    def _wind(self, seconds: int) -> None:
        self._source.jump(seconds * 1000 * MS)

    def _until(self, seconds: int) -> None:
        """The piece has gone on for so many seconds."""
        sheet, now = self._sheet, self._session.live.clock.now()
        left = seconds * 1000 - (
            sheet.elapsed(now) if now >= sheet.clock.go else now - sheet.clock.go
        )
        if left > 0:
            self._source.jump(left * MS)

    def _call(self, calls: list[tuple[int, str]]) -> None:
        for at, key in calls:
            self._until(at)
            self._press(key)

    def _on_to(self, name: str) -> None:
        """Until this segment is on the board."""
        for _ in range(4):
            live = self._session.live
            if live.phase == "board" and live.record.segment.name == name:
                return
            self._type("<enter>")
        raise RuntimeError(f"{name} was not reached: {self._session.live.phase}")
