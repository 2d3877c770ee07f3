"""Text that would steer a terminal, in every field: nothing of it comes out but as an escape.

What steers a terminal: the controls of ECMA-48 (Unicode's category Cc), what ends a line (Zl, Zp),
and what turns a line round (UAX #9). It is put where today's program would refuse it, as an older
one, another program or a hand may have left it.
"""

import asyncio
import io
import json
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from classclock.commands.book.actions import ACTIONS
from classclock.commands.command_line import COMMANDS, main
from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import line
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.class_actions import note, note_emergency, take_in
from classclock.units.csv_cells import csv_bytes
from tests.classes.conftest import Coach
from tests.faults.conftest import Seen, Times
from tests.faults.hostile_club import HostileClub, hostile_texts, steers
from tests.faults.hostile_commands import command_lines
from tests.faults.hostile_screens import Drawn, drawn, draws_a_class, draws_every_page

__all__ = ["drawn"]

CHECKED_IN = (
    "classclock.plan.value_types",
    "classclock.commands.shared.options",
    "classclock.book.importing.row_reading",
    "classclock.commands.shared.book",
)
"""Where hostile text is refused today."""
PLAIN = Look(SIXTEEN, Terminal(16, None))
WINDOWS = (((120, 36), Look()), ((60, 18), Look()), ((120, 36), PLAIN))


@pytest.fixture
def let_through(monkeypatch: pytest.MonkeyPatch) -> None:
    """As if nothing had been refused when it was typed."""
    for module in CHECKED_IN:
        monkeypatch.setattr(f"{module}.can_be_shown", lambda _: True)


@pytest.fixture
def no_screens(monkeypatch: pytest.MonkeyPatch) -> None:
    """A command that would show a screen comes to the point where it would."""
    monkeypatch.setattr("classclock.screens.start._run", lambda *_: 0)
    monkeypatch.setattr("classclock.live.session_opening._speaker", lambda *_, **__: _Silent())


class _Silent:
    def close(self) -> None:
        """Nothing is open."""


class Ran:
    """Command lines that were run, and what each left."""

    def __init__(self) -> None:
        self.count = 0
        self.asked: set[tuple[str, ...]] = set()

    def run(self, *words: str) -> tuple[str, str, int]:
        """What it prints, and its exit status; not a sign of it steers."""
        out, err = io.BytesIO(), io.BytesIO()
        with (
            io.TextIOWrapper(out, "utf-8", newline="", write_through=True) as to_out,
            io.TextIOWrapper(err, "utf-8", newline="", write_through=True) as to_err,
            redirect_stdout(to_out),
            redirect_stderr(to_err),
        ):
            try:
                status = main(words)
            except SystemExit as ended:
                status = int(str(ended.code or 0))
            printed = [raw.getvalue().decode() for raw in (out, err)]
        for text in printed:
            assert steers(text) == [], (words, text)
            assert "Traceback" not in text
        self.count += 1
        self.asked |= {words[:1], words[:2]}
        return printed[0], printed[1], status


def held(club: HostileClub) -> None:
    """The club's class, run from its board to its end, and one that is cut off."""
    session = club.opens()
    coach = Coach(session, club.source)
    assert not take_in(session, "?").refused
    for person in (*session.live.record.people, None):
        note(session, club.of("knee"), person.id if person is not None else None)
    note_emergency(session, club.of("ankle"))
    for segment in range(3):
        coach.start()
        for keys in ("i", "2n", "60b", ":i1"):
            coach.type(keys)
        coach.wind(400)
        coach.type("*<enter>" if segment else "<enter>")
        coach.wind(2)
    assert session.save()
    assert session.live.phase == "closed"
    session.close()
    coach.wind(120)
    club.opens().close()


def every_command(club: HostileClub, out: Path, ran: Ran) -> None:
    """Run them all in this club, and look at what they print and write."""
    held(club)
    for words in command_lines(club, out):
        printed, _, status = ran.run(*words)
        assert status in (0, 1, 2), words
        if "--json" in words and printed:
            json.loads(printed)
    tables = (*club.folder.rglob("*.csv"), *out.glob("all*/*.csv"))
    for path in (*tables, *out.glob("*.html"), *out.glob("ilse/*")):
        assert steers(path.read_bytes().decode()) == [], path.name
    pages = ("report.html", "notes.html", "chart.html", "athlete.html", "month.html")
    for table in ("chart.csv", *pages, "ilse/README.txt", "ilse/journals.json"):
        assert "OWNED" in (out / table).read_text("utf-8"), table


@pytest.mark.usefixtures("let_through", "no_screens")
def test_no_command_prints_or_writes_what_steers_a_terminal(
    times: Times, seen: Seen, monkeypatch: pytest.MonkeyPatch
) -> None:
    ran = Ran()
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)

    @settings(max_examples=times(2, 100), deadline=None, phases=[Phase.generate])
    @given(hostile_texts)
    def run_all(hostile: str) -> None:
        with TemporaryDirectory() as folder:
            club = HostileClub(Path(folder) / "depot", hostile)
            monkeypatch.setenv("CLASSCLOCK_CLUB", str(club.folder))
            every_command(club, Path(folder) / "out", ran)

    run_all()
    seen(f"{ran.count} command lines with hostile text in every field")
    for command in COMMANDS:
        assert (command.name,) in ran.asked
    for action in ACTIONS:
        assert ("book", action.name) in ran.asked


@given(text=st.text(max_size=40) | hostile_texts, columns=st.integers(0, 60))
def test_no_text_reaches_a_cell_and_steers(text: str, columns: int) -> None:
    look = Look()
    drawings = (
        look.text(text, columns),
        look.letters(text, columns, 3),
        line(text, "#ffffff", "#000000"),
        line(text, "#ffffff", "#000000", columns=columns),
    )
    for drawing in drawings:
        for row in drawing:
            assert steers("".join(segment.text for segment in row).replace("\n", "\x00")) == []


def test_a_cut_text_says_so_though_its_escapes_take_more_room() -> None:
    (row,) = Look().text("Noor\x1b[2J\x1b[2J", 10)
    assert "".join(segment.text for segment in row) == r"Noor\x1b[…"


@given(st.lists(st.text(max_size=20) | hostile_texts, min_size=1))
def test_no_text_reaches_a_table_and_steers(cells: list[str]) -> None:
    table = csv_bytes(("one",), [cells]).decode()
    assert steers(table) == []
    assert table.count("\n") == 2  # a line break in a cell is an escape too


@pytest.mark.usefixtures("in_the_table", "let_through")
@pytest.mark.parametrize("pages", [False, True], ids=["a class", "pages"])
def test_no_screen_draws_what_steers_a_terminal(
    times: Times, seen: Seen, drawn: Drawn, monkeypatch: pytest.MonkeyPatch, *, pages: bool
) -> None:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    draws = draws_every_page if pages else draws_a_class

    @settings(max_examples=times(1, 20), deadline=None, phases=[Phase.generate])
    @given(hostile_texts, st.sampled_from(WINDOWS))
    def draw_all(hostile: str, window: tuple[tuple[int, int], Look]) -> None:
        size, look = window
        with TemporaryDirectory() as folder:
            club = HostileClub(Path(folder) / "depot", hostile)
            asyncio.run(draws(club, look, size, drawn))

    draw_all()
    seen(f"{drawn.count} drawings with hostile text in every field")
    assert drawn.lacks(pages=pages) == set()
