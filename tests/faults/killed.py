"""A class killed at random moments and rejoined, in a real terminal, again and again."""

import random

from msgspec import Struct, field

from classclock.clock.source import MS, raw_now
from tests.faults.a_full_wall import (
    COLUMNS,
    KEYS,
    LOOK,
    NAMES,
    PEOPLE,
    ROWS,
    is_up,
    left_of,
    shows_clock,
    tallies,
)
from tests.faults.conftest import WatchedClub
from tests.signals import KILL
from tests.terminal.conftest import Terminal

SPEED = 10
PIECE = 5 * 3_600_000
"""Milliseconds; long enough to be killed in hundreds of times."""
_LATEST = 1.8
"""Seconds from the start of a process to the latest moment at which it is killed."""


class Killings(Struct):
    """What was seen."""

    kills: int = 0
    before_the_wall: int = 0
    """Kills that came before the rejoined class was on the screen."""
    typed: int = 0
    shown: int = 0
    """Taps that had been on the screen when their process was killed."""
    lost: list[str] = field(default_factory=list)
    doubled: list[str] = field(default_factory=list)
    off_ms: list[float] = field(default_factory=list)
    """By how much the clock was off after rejoining, in real milliseconds, as a key shows it."""
    taken_ms: list[float] = field(default_factory=list)
    """How long after a key was typed its moment was."""
    clock_ms: list[float] = field(default_factory=list)
    """How long after the wall's first paint the clock on the screen was right within 50 ms."""


class KilledClass:
    """One class that is killed and rejoined."""

    def __init__(self, club: WatchedClub, chance: random.Random) -> None:
        self.club, self.chance = club, chance
        self.seen = Killings()
        self._typed = dict.fromkeys(PEOPLE, 0)
        self._shown = dict.fromkeys(PEOPLE, 0)
        self._next = 0
        self._began: dict[str, int] = {}

    def run(self, kills: int) -> Killings:
        plan = self.club.plan("5:00:00")
        terminal = self._open("run", plan, "--athletes", NAMES, "--speed", str(SPEED))
        terminal.shows("enter starts")
        terminal.type("\r")
        terminal.waits_for(lambda: is_up(terminal.text), "the wall")
        self._began = self.club.lines()[0]["anchor"]
        for _ in range(kills):
            self._tap_until_killed(terminal, self.chance.uniform(0.1, _LATEST))
            terminal = self._open("resume")
        terminal.waits_for(lambda: is_up(terminal.text), "the wall")
        self._check(terminal)
        return self.seen

    def _open(self, *arguments: str) -> Terminal:
        return self.club.start(*arguments, columns=COLUMNS, rows=ROWS, **LOOK)

    def _tap_until_killed(self, terminal: Terminal, seconds: float) -> None:
        end = raw_now() + round(seconds * 1000) * MS
        checked = False
        while (left := (end - raw_now()) / 1e9) > 0:
            if not is_up(terminal.text):
                terminal.passes(min(left, 0.02))
                continue
            if not checked:
                self._check(terminal)
                checked = True
            terminal.type(KEYS[self._next])
            self._typed[PEOPLE[self._next]] += 1
            self._next = (self._next + 1) % len(KEYS)
            terminal.passes(min(left, self.chance.uniform(0.02, 0.06)))
        terminal.signal(KILL)
        terminal.status()
        self.seen.kills += 1
        self.seen.before_the_wall += not checked
        self._shown.update(tallies(terminal.text))
        self._count()
        terminal.end()
        self.club.terminals.remove(terminal)

    def _count(self) -> None:
        """Nothing that was shown may be missing, nothing typed once may be there twice."""
        taps = self.club.names_tapped()
        for name in PEOPLE:
            kept = taps.count(name)
            if kept < self._shown[name]:
                self.seen.lost.append(f"{name}: {self._shown[name]} shown, {kept} kept")
            if kept > self._typed[name]:
                self.seen.doubled.append(f"{name}: {self._typed[name]} typed, {kept} kept")
        self.seen.typed, self.seen.shown = sum(self._typed.values()), sum(self._shown.values())

    def _check(self, terminal: Terminal) -> None:
        """What stands on the screen is what was kept, and a key's moment is the moment it is."""
        # A frame comes out of the terminal in several parts.
        terminal.waits_for(
            lambda: set(tallies(terminal.text)) >= set(PEOPLE), "a row for everybody"
        )
        rows = tallies(terminal.text)
        taps = self.club.names_tapped()
        self.seen.lost += [
            f"{name}: {taps.count(name)} kept, {rows.get(name)} on the screen"
            for name in PEOPLE
            if rows.get(name) != taps.count(name)
        ]
        up = raw_now()
        # The first paint takes its time, tenfold at this speed; then the digits must be right.
        terminal.waits_for(lambda: not self._clock_on(terminal), "the right time on the clock", 2)
        self.seen.clock_ms.append((raw_now() - up) / MS)
        before, at = len(taps), raw_now()
        terminal.type(KEYS[self._next])
        self._typed[PEOPLE[self._next]] += 1
        self._next = (self._next + 1) % len(KEYS)
        terminal.waits_for(lambda: len(self.club.names_tapped()) > before, "the tap to be kept")
        kept = raw_now()
        tapped = self.club.tapped()[before]["at"]
        # A busy machine hands a key over late, but not before it was typed or after it was kept.
        early, late = tapped - self._moment(at), tapped - self._moment(kept)
        self.seen.off_ms.append((min(early, 0) + max(late, 0)) / SPEED)
        self.seen.taken_ms.append(max(early, 0) / SPEED)

    def _clock_on(self, terminal: Terminal) -> str:
        """What is wrong with the clock on the screen; empty when it stands as it should."""
        go = next(line["go"] for line in self.club.events() if line["event"] == "SegmentStarted")
        earliest = self._moment(raw_now()) - go - 50 * SPEED
        text = terminal.text
        latest = self._moment(raw_now()) - go
        seconds = range(earliest - earliest % 1000, latest + 1000, 1000)
        if any(shows_clock(text, left_of(PIECE, second)) for second in seconds):
            return ""
        return f"not {earliest} to {latest} ms after go:\n{text}"

    def _moment(self, raw: int) -> int:
        """The class's moment (ms) by the machine's clock and the very first line of the journal."""
        return self._began["at"] + (raw - self._began["raw"]) * SPEED // MS
