"""A class in a real terminal whose cues are recorded while its clock is watched."""

import gc
import os
import random
import select
from bisect import bisect_left
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise

import pyte
from msgspec import Struct, field

from classclock.clock.source import MS, raw_now
from classclock.plan.formats.timelines import timeline
from classclock.plan.reading.plan_reading import parse_plan
from classclock.units.times import show_time
from tests.faults.a_full_wall import COLUMNS, KEYS, LOOK, NAMES, ROWS, shows_clock
from tests.faults.conftest import WatchedClub
from tests.sound.recording import RATE, WAKING_S, Recording, way_to
from tests.terminal.conftest import Terminal

PLAN = """
title = "Points and crossings"
[[segment]]
name = "Signal box"
format = "interval"
repeat = {repeat}
score = "total"
count_in = "0:04"
steps = [{ work = "0:05" }]
  [[segment.station]]
  movement = "box step-over"
  reps = 6
"""
"""Four cues in every five seconds: three short ones and the change itself."""
_EVERY = 50 * MS
"""Between two taps of a busy coach."""
_RESIZED_EVERY = 700 * MS
_TALLER = 3
"""Rows by which the window may grow."""


class Heard(Struct):
    """What came out, cue by cue."""

    cues: int = 0
    missed: int = 0
    spacing_ms: list[float] = field(default_factory=list)
    """By how much two cues that follow each other were further apart, or closer, than planned."""
    after_due_ms: list[float] = field(default_factory=list)
    after_digit_ms: list[float] = field(default_factory=list)
    """From the moment the digits changed in the terminal to the cue's onset in the room."""
    taps: int = 0
    taps_kept: int = 0
    behind_ms: float = 0
    """How far the one who types fell behind, at worst: a tap of each lane is due every 1.3 s."""


@contextmanager
def undisturbed() -> Iterator[None]:
    """Look for no garbage meanwhile: with all that tests load it takes a tenth of a second."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


class ListenedTo:
    """One run of the piece: idle, or tapped twenty times a second and resized meanwhile."""

    def __init__(self, club: WatchedClub, room: dict[str, str], *, busy: bool, steps: int) -> None:
        self.club, self.room, self.busy = club, room, busy
        self.text = PLAN.replace("{repeat}", str(steps))
        plan, findings = parse_plan(self.text, "signal-box.toml")
        if plan is None:
            raise ValueError(str(findings[0]))
        self.timeline = timeline(plan.segment[0])
        self._painted: list[tuple[int, bytes]] = []
        """What came out of the terminal, or the rows that it was given, each at its moment."""
        self._typed: list[int] = []
        """When each tap was typed, the lanes one after the other."""

    def run(self) -> Heard:
        recording = Recording(self.room)
        try:
            terminal = self._begin()
            with undisturbed():
                self._watch(terminal)
        finally:
            recording.stop()
        return self._judge(recording)

    def _begin(self) -> Terminal:
        path = self.club.plan(name="signal-box", text=self.text)
        environment = {**LOOK, **way_to(self.room)}
        terminal = self.club.start(
            *("run", path, "--athletes", NAMES), columns=COLUMNS, rows=ROWS, **environment
        )
        terminal.shows("enter starts")
        terminal.passes(WAKING_S)
        return terminal

    def _watch(self, terminal: Terminal) -> None:
        """Type, resize, and note what is painted when; nothing is drawn until it is over."""
        chance = random.Random(5)  # noqa: S311  a sample, no secret
        keys = file = terminal._child.child_fd
        os.write(keys, b"\r")
        began = raw_now()
        end = began + 4_000 * MS + (self.timeline.total + 700) * MS
        piece = began + 4_100 * MS
        tap, resize = piece, piece
        while (now := raw_now()) < end:
            if self.busy and now >= tap:
                tap += _EVERY
                os.write(keys, KEYS[len(self._typed) % len(KEYS)].encode())
                self._typed.append(raw_now())
            if self.busy and now >= resize:
                resize += _RESIZED_EVERY
                rows = ROWS + chance.randrange(_TALLER + 1)
                terminal._child.setwinsize(rows, COLUMNS)
            wait = min(end, tap if self.busy and now < end else end, now + 20 * MS) - now
            if select.select([file], [], [], max(0, wait) / 1e9)[0]:
                painted = os.read(file, 65_536)
                self._painted.append((raw_now(), painted))

    def _judge(self, recording: Recording) -> Heard:
        heard = Heard()
        anchor, go = self.club.lines()[0]["anchor"], self.club.go
        dues = {
            cue.at: anchor["raw"] + (go + cue.at - anchor["at"]) * MS for cue in self.timeline.cues
        }
        onsets = [(frame, recording.moment(frame)) for frame in recording.onsets()]
        changed = self._changes(dues)
        sounded: list[tuple[int, int]] = []
        for at, due in sorted(dues.items()):
            heard.cues += 1
            near = min(onsets, key=lambda onset: abs(onset[1] - due), default=(0, 0))
            if abs(near[1] - due) > 300 * MS:
                heard.missed += 1
                continue
            sounded.append((at, near[0]))
            heard.after_due_ms.append((near[1] - due) / MS)
            if at in changed:
                heard.after_digit_ms.append((near[1] - changed[at]) / MS)
        heard.spacing_ms = [
            abs((later[1] - earlier[1]) * 1000 / RATE - (later[0] - earlier[0]))
            for earlier, later in pairwise(sounded)
        ]
        heard.taps, heard.taps_kept = len(self._typed), len(self.club.tapped())
        heard.behind_ms = max(
            (
                (at - self._typed[0]) / MS - number * _EVERY / MS
                for number, at in enumerate(self._typed)
            ),
            default=0,
        )
        return heard

    def _changes(self, dues: dict[int, int]) -> dict[int, int]:
        """When the digits of each of these moments of the piece stood on the screen."""
        moments = sorted(dues)
        whens = [dues[at] for at in moments]
        screen = pyte.Screen(COLUMNS, ROWS + _TALLER)  # all is painted from the top
        stream = pyte.ByteStream(screen)
        found = dict[int, int]()
        for when, painted in self._painted:
            stream.feed(painted)
            place = bisect_left(whens, when + 20 * MS) - 1
            if place < 0 or moments[place] in found or when > whens[place] + 500 * MS:
                continue
            at = moments[place]
            if shows_clock("\n".join(screen.display), self._shown(at)):
                found[at] = when
        return found

    def _shown(self, at: int) -> str:
        """What the clock shows from this moment of the piece on."""
        if at == 0:
            return "GO"
        shown = self.timeline.at(at).shown
        return str(shown) if at < 0 else show_time(shown * 1000)
