"""Who has the one row at the foot: notices take turns in it, by their weight. Pure.

A refusal comes at once, and so does an answer; but nothing that must be read has to give way to an
answer twice. What must be read has three seconds, once; what stands because something is wrong
comes again whenever there is nothing else to say. The last answer stays until something else is
said, and has a turn whenever all that is wrong has had one.
"""

from collections.abc import Callable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from classclock.wall.notices.notice import Notice

TURN = 3_000
"""Milliseconds of real time for one row of words."""
ASIDE_WAITS = 10_000
"""Milliseconds after which an aside is no news any more."""

_LAST = Notice("", "aside")
"""Stands for a turn of the last answer, or refusal: the keys that matter have room beside it."""

Parts = Callable[[Notice, str, bool], Sequence[str]]
"""A notice as the row has room for it, beside its count: one part or more, a turn for each.

Whether it has been read before is told, too: then the keys beside it matter more.
"""


class Shown(Struct, frozen=True):
    """What stands in the row."""

    text: str = ""
    """Not cut to the row where it has had its turn."""
    count: str = ""
    """`2 of 3`, where several must be read; where to look for them while none is shown."""
    stands: bool = False
    """It is said for as long as something is wrong."""
    in_turn: bool = False
    """It is to be read now; the keys that matter can wait."""


class Turns(Struct, frozen=True):
    """Every moment is in milliseconds of real time, and none is earlier than the one before."""

    standing: tuple[Notice, ...] = ()
    """What is wrong now, the weightiest first; each with a key of its own."""
    passing: tuple[Notice, ...] = ()
    """What else must be read and hasn't been."""
    refusal: Notice | None = None
    answer: Notice | None = None
    aside: Notice | None = None
    """These three wait to be shown: the newest of each kind."""
    aside_at: int = 0
    last: Notice | None = None
    """The newest answer or refusal."""
    on: Notice | None = None
    """Whose turn it is."""
    since: int = 0
    gave_way: Notice | None = None
    """What had to give way to an answer most lately."""
    read: frozenset[str] = frozenset()
    """The keys of what stands and has had its turn."""
    latest: str = ""
    """The key of what stood in the row most lately."""

    def said(self, notice: Notice, now: int) -> "Turns":
        match notice.weight:
            case "must":
                known = any(one.text == notice.text for one in self.passing)
                return self if known else replace(self, passing=(*self.passing, notice))
            case "refusal":
                return replace(self, refusal=notice, last=notice)
            case "answer":
                return replace(self, answer=notice, last=notice)
            case "aside":
                return replace(self, aside=notice, aside_at=now)

    def stand(self, troubles: tuple[Notice, ...]) -> "Turns":
        """From now on this is what is wrong; what isn't any more is gone at once."""
        by_key = {one.key: one for one in troubles}
        on = self.on
        if on is not None and on.key:
            on = by_key.get(on.key)
        return replace(self, standing=troubles, on=on, read=self.read & by_key.keys())

    def on_another_screen(self) -> "Turns":
        """What answered a key on the one before has its turn to the end, and stays no longer."""
        return replace(self, last=None, on=None if self.on is _LAST else self.on)

    def struck(self, sign: str) -> "Turns":
        """A key was struck: what it answers needs no more time."""
        on = self.on
        return _done(self, on) if on is not None and sign in on.answered_by else self

    def at(self, now: int, parts: Parts) -> "Turns":
        """Give the row to whose turn it is at this moment."""
        turns, answered = self, False
        if self.on is not None and now - self.since >= TURN * len(_set(self, self.on, parts)):
            turns, answered = _done(self, self.on), self.on.weight == "answer"
        on = turns.on
        if turns.refusal is not None:
            return replace(turns, on=turns.refusal, since=now, refusal=None)
        if on is None or on.weight == "aside" or on.key in turns.read:
            return _next(turns, now, answered=answered)
        if turns.answer is None or on.weight == "refusal" or on == turns.gave_way:
            return turns
        if on.weight == "must":
            return replace(turns, on=turns.answer, since=now, answer=None, gave_way=on)
        # One answer after the other; where something waits they have one turn together.
        since = turns.since if _unread(turns) is not None else now
        return replace(turns, on=turns.answer, since=since, answer=None)

    def shown(self, now: int, parts: Parts) -> Shown:
        """The row at this moment, for which `at` has been asked already."""
        if self.on is None or self.on is _LAST:
            said = self.last.text if self.last is not None else ""
            return Shown(said, f"ctrl+n: {len(self.standing)}" if self.standing else "")
        rows = _set(self, self.on, parts)
        part = min((now - self.since) // TURN, len(rows) - 1)
        return Shown(rows[part], _count(self, self.on), stands=bool(self.on.key), in_turn=True)


def _done(turns: Turns, on: Notice) -> Turns:
    """Without this one in the row, which has been read."""
    if on.key:
        return replace(turns, on=None, read=turns.read | {on.key}, latest=on.key)
    if on is _LAST:
        return replace(turns, on=None, latest="")
    passing = tuple(one for one in turns.passing if one is not on)
    return replace(turns, on=None, passing=passing)


def _next(turns: Turns, now: int, *, answered: bool) -> Turns:
    """Whoever is next; what has the row gives way. `answered`: answers had their turn just now."""
    unread = _unread(turns)
    if turns.answer is not None and not (answered and unread is not None):
        return replace(turns, on=turns.answer, since=now, answer=None)
    if unread is not None:
        return replace(turns, on=unread, since=now)
    if turns.aside is not None and now - turns.aside_at < ASIDE_WAITS:
        return replace(turns, on=turns.aside, since=now, aside=None)
    if turns.on is not None or not turns.standing:
        return replace(turns, aside=None)
    keys = [one.key for one in turns.standing]
    after = keys.index(turns.latest) + 1 if turns.latest in keys else 0
    return replace(turns, on=(*turns.standing, _LAST)[after], since=now, aside=None)


def _musts(turns: Turns) -> tuple[Notice, ...]:
    """What is wrong before what is news: a class that isn't saved waits for nothing else."""
    return *turns.standing, *turns.passing


def _unread(turns: Turns) -> Notice | None:
    """The first that must be read and hasn't been."""
    return next((one for one in _musts(turns) if one.key not in turns.read), None)


def _set(turns: Turns, on: Notice, parts: Parts) -> Sequence[str]:
    return parts(on, _count(turns, on), on.key in turns.read)


def _count(turns: Turns, on: Notice) -> str:
    musts = _musts(turns)
    if len(musts) < 2 or on not in musts:
        return ""
    return f"{musts.index(on) + 1} of {len(musts)}"
