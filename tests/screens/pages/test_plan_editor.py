"""Writing a plan by keys, in front of its screen."""

import json
import tomllib
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from classclock.clock.source import WoundSource
from classclock.club.plan_files import read_plan
from classclock.drafts.new_plan_list import begin, starts_in
from classclock.drafts.plan_being_written import DraftFile, PlanOnDisk, open_plan
from classclock.live.session_opening import open_session
from classclock.machine.bundled import bundled
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.pages.editor.plan_editor_drawing import draw_editor
from classclock.screens.pages.editor.plan_editor_screen import PlanEditorScreen
from classclock.screens.pages.home.home_screen import HomeScreen
from classclock.screens.ways import Ways
from classclock.tally.lane_keys import people_named

COMMENTED = """\
# ours since the spring
title = "Sandbox Sunday"  # ask Noor

[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"   # or nine

# the box is at the west rail
[[segment]]
name = "Sandbox"
format = "rounds-in-time"
time = "12:00"

  [[segment.station]]
  movement = "box step-over" # both feet
  reps = 6
"""


class Writer:
    """A coach at the keys of an editor."""

    def __init__(self, screen: PlanEditorScreen) -> None:
        self.screen = screen
        self.pilot: Pilot[str]
        self.said: str | None = None

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.pilot.pause()

    async def type(self, text: str) -> None:
        named = {" ": "space", ":": "colon", ",": "comma", "%": "percent_sign", ";": "semicolon"}
        await self.press(*(named.get(sign, sign) for sign in text), "enter")

    @property
    def values(self) -> dict[str, Any]:
        return tomllib.loads(self.screen.desk.draft.text)

    @property
    def seen(self) -> str:
        view = self.screen.view
        return plain_text(view.paint(*view.size))


Write = Callable[..., AbstractAsyncContextManager[Writer]]


@pytest.fixture
def write(tmp_path: Path) -> Write:
    """Opens the editor on a plan in the club of `tmp_path`."""

    @asynccontextmanager
    async def opened(plan: PlanOnDisk, size: tuple[int, int] = (120, 36)) -> AsyncIterator[Writer]:
        writer = Writer(PlanEditorScreen(Look(), plan, folder=tmp_path, club=Club()))

        async def flow(app: ClassclockApp) -> str:
            writer.said = await app.push_screen_wait(writer.screen)
            return "done"

        async with ClassclockApp(Look(), flow).run_test(size=size) as pilot:
            writer.pilot = pilot
            await pilot.pause()
            yield writer

    return opened


@pytest.fixture
def sunday(tmp_path: Path) -> Path:
    path = tmp_path / "sunday.toml"
    path.write_text(COMMENTED)
    return path


def text_of(path: Path) -> str:
    return path.read_bytes().decode()


def put(path: Path, text: str, mode: int = 0o600) -> None:
    path.write_bytes(text.encode())
    path.chmod(mode)


def mode_of(path: Path) -> int:
    return path.stat().st_mode & 0o777


async def test_a_plan_is_written_from_nothing_by_keys(write: Write, tmp_path: Path) -> None:
    async with write(begin("countdown")) as coach:
        await coach.type("Third Rail Friday")
        await coach.press("escape", "down", "plus", "4")
        await coach.type("Third Rail")
        await coach.press("down")
        await coach.type("14:00")
        await coach.type("5")
        await coach.press("escape")
        await coach.type("row")
        await coach.type("250 m")
        await coach.type("box st")
        await coach.type("10")
        assert "10 reps a round" in coach.seen
        assert "22:20 with count-ins" in coach.seen
        await coach.press("ctrl+s")
        await coach.press("escape")
    path = tmp_path / "plans" / "third-rail-friday.toml"
    assert coach.said == f"saved: {path}"
    plan, findings = read_plan(path)
    assert plan is not None, findings
    assert [segment.name for segment in plan.segment] == ["Warm-up", "Third Rail"]
    piece = plan.segment[1]
    assert [station.movement for station in piece.station] == ["row", "box step-over"]
    assert piece.station[0].metres == 250
    assert not (tmp_path / "drafts" / "new.json").exists()


async def test_comments_stay_when_a_plan_is_edited(write: Write, sunday: Path) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "enter", "down", "down")
        await coach.type("9:00")
        await coach.press("escape", "ctrl+s", "escape")
    assert text_of(sunday) == COMMENTED.replace('"8:00"', '"9:00"')


async def test_backspace_in_the_list_takes_every_edit_back(write: Write, sunday: Path) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "right_square_bracket", "minus", "up", "equals_sign")
        assert coach.screen.desk.draft.text != COMMENTED
        await coach.press(*["backspace"] * 3)
        assert coach.screen.desk.draft.text == COMMENTED
        assert "saved" in coach.seen


async def test_escape_leaves_a_value_as_it_was(write: Write, sunday: Path) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "enter", "x", "y", "escape", "escape")
        assert coach.screen.desk.draft.text == COMMENTED
        await coach.press("escape")
    assert coach.said == ""


async def test_the_first_letters_propose_movements_and_down_chooses(
    write: Write, sunday: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("end", "b", "o", "x")
        assert "box jump" in coach.seen
        await coach.press("down", "enter")
        await coach.type("8")
        stations = coach.values["segment"][1]["station"]
        assert stations[1] == {"movement": "box jump", "reps": 8}


async def test_words_of_ones_own_can_be_a_movement(write: Write, sunday: Path) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("end", "b", "o", "x", "up", "enter", "escape")
        assert coach.values["segment"][1]["station"][1]["movement"] == "box"
        await coach.type("points lever drag")
        await coach.press("escape")
        assert coach.values["segment"][1]["station"][2]["movement"] == "points lever drag"


async def test_a_plan_with_a_fault_is_saved_and_says_what_is_wrong(
    write: Write, sunday: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "enter", "down", "down")
        await coach.type("long")
        await coach.press("escape")
        assert "1 fault" in coach.seen
        assert "at least 12:10 with count-ins" in coach.seen
        await coach.press("ctrl+s")
        assert "with what is still wrong in it" in coach.seen
    assert 'time = "long"   # or nine' in text_of(sunday)


async def test_a_file_that_somebody_else_changed_is_not_overwritten_unasked(
    write: Write, sunday: Path, tmp_path: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus")
        put(sunday, "# theirs\n" + COMMENTED)
        await coach.press("ctrl+s")
        assert "changed by somebody else" in coach.seen
        await coach.press("ctrl+s", "escape")
        assert text_of(sunday).startswith("# theirs")
        await coach.press("ctrl+s", "n")
    assert text_of(sunday).startswith("# theirs")
    assert len(tomllib.loads((tmp_path / "plans/sandbox-sunday.toml").read_text())["segment"]) == 1


async def test_what_is_half_typed_is_offered_the_next_time(
    write: Write, sunday: Path, tmp_path: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus", "end", *"bod")
        # Here the process is gone: no key, no word of farewell.
    async with write(open_plan(sunday)) as coach:
        assert "a draft from" in coach.seen
        await coach.press("enter")
        assert [one["name"] for one in coach.values["segment"]] == ["Sandbox"]
        assert coach.screen.desk.entry is not None
        assert coach.screen.desk.entry.line.text == "bod"
        await coach.press("enter", "4", "enter", "ctrl+s")
        assert tomllib.loads(text_of(sunday))["segment"][0]["station"][1] == {
            "movement": "bodyweight squat",
            "reps": 4,
        }
    assert not list((tmp_path / "drafts").iterdir())


async def test_a_draft_that_is_dropped_is_gone(write: Write, sunday: Path, tmp_path: Path) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus")
    async with write(open_plan(sunday)) as coach:
        await coach.press("x")
        assert "a draft from" in coach.seen
        await coach.press("d")
        assert coach.screen.desk.draft.text == COMMENTED
    assert not list((tmp_path / "drafts").iterdir())


async def test_a_draft_whose_file_changed_since_asks_before_it_writes_over_it(
    write: Write, sunday: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus")
    put(sunday, "# theirs\n" + COMMENTED)
    async with write(open_plan(sunday)) as coach:
        await coach.press("enter", "ctrl+s")
        assert "changed by somebody else" in coach.seen
        await coach.press("o")
    assert not text_of(sunday).startswith("# theirs")


async def test_a_sample_plan_is_edited_as_a_copy(write: Write, tmp_path: Path) -> None:
    sample = bundled("plans") / "sandbox.toml"
    before = sample.read_bytes()
    async with write(open_plan(sample)) as coach:
        await coach.press("down", "minus", "ctrl+s")
    assert sample.read_bytes() == before
    assert (tmp_path / "plans" / "sandbox-friday.toml").exists()


async def test_leaving_asks_and_the_draft_stays(write: Write, sunday: Path, tmp_path: Path) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus", "escape")
        assert "this isn't saved yet" in coach.seen
        await coach.press("enter")
    assert coach.said == "the plan isn't saved; its draft is offered the next time"
    assert DraftFile(tmp_path, sunday).read() is not None
    assert text_of(sunday) == COMMENTED


async def test_the_coachs_own_editor_is_named_when_there_is_none(
    write: Write, sunday: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("VISUAL", raising=False)
    monkeypatch.delenv("EDITOR", raising=False)
    async with write(open_plan(sunday)) as coach:
        await coach.press("ctrl+e")
        assert "set VISUAL or EDITOR" in coach.seen


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60)])
async def test_every_state_fills_its_window_and_says_its_keys(
    write: Write,
    sunday: Path,
    size: tuple[int, int],
    check_filled: Callable[[Drawing, int, int], None],
) -> None:
    states: tuple[list[str], ...] = (
        [],
        ["enter"],
        ["a"],
        ["escape", "escape", "end", "b"],
        ["escape", "plus"],
    )
    async with write(open_plan(sunday), size) as coach:
        for keys in states:
            await coach.press(*keys)
            check_filled(draw_editor(coach.screen.view.page, *size, Look()), *size)
            assert "escape" in coach.seen


async def test_new_plans_begin_from_what_the_club_has(sunday: Path, tmp_path: Path) -> None:
    (tmp_path / "plans").mkdir()
    (tmp_path / "plans" / "sunday.toml").write_text(COMMENTED)
    named = {start.title: start.source for start in starts_in(tmp_path)}
    assert list(named)[:4] == ["countdown", "interval", "rounds-in-time", "capped-for-time"]
    copied = begin(named["sunday"])
    assert copied.path is None
    assert copied.text == COMMENTED.replace("Sandbox Sunday", "New plan")


@pytest.mark.parametrize("title", ["../../etc/passwd", "\x1b[2J", "a\0b", "x" * 400, "日本", ""])
async def test_no_title_writes_outside_the_clubs_plans(
    write: Write, tmp_path: Path, title: str
) -> None:
    async with write(begin("countdown")) as coach:
        await coach.press("escape")
        coach.screen.desk._set("title", title)
        await coach.press("escape", "ctrl+s")
        await coach.press("escape")
    (saved,) = (tmp_path / "plans").iterdir()
    assert len(saved.name) < 80
    assert saved.name.isascii()


async def test_a_plan_never_takes_another_ones_file(write: Write, tmp_path: Path) -> None:
    for _ in range(2):
        async with write(begin("countdown")) as coach:
            await coach.type("Headway")
            await coach.press("escape", "ctrl+s")
    assert sorted(path.name for path in (tmp_path / "plans").iterdir()) == [
        "headway-2.toml",
        "headway.toml",
    ]


async def test_line_ends_stay_as_the_file_had_them(write: Write, sunday: Path) -> None:
    put(sunday, COMMENTED.replace("\n", "\r\n"), mode=0o644)
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "enter", "down", "down")
        await coach.type("9:00")
        await coach.press("ctrl+s")
    assert text_of(sunday) == COMMENTED.replace('"8:00"', '"9:00"').replace("\n", "\r\n")
    assert mode_of(sunday) == 0o644


async def read(home: HomeScreen) -> None:
    """Wait until its files are read."""
    reading = [worker for worker in home.workers if worker.node is home]
    if reading:
        await home.workers.wait_for_complete(reading)


async def test_home_edits_the_plan_in_focus_and_reads_it_again(tmp_path: Path) -> None:
    (tmp_path / "plans").mkdir()
    (tmp_path / "plans" / "a-sunday.toml").write_text(COMMENTED)
    home = Ways(Look(), tmp_path).home(Club())

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(home)
        return ""

    async with ClassclockApp(Look(), flow).run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        await read(home)
        await pilot.press("f8")
        await pilot.pause()
        await pilot.press("enter", *"Monday", "enter", "escape", "ctrl+s", "escape")
        await pilot.pause()
        await read(home)
        await pilot.pause()
        assert home.desk.plans[0].title == "Monday"
        assert home.desk.notice.startswith("saved: ")


@pytest.mark.parametrize("named", ["nothing-here", "notes.txt", "broken.json"])
def test_what_is_no_plan_is_answered_in_a_sentence(tmp_path: Path, named: str) -> None:
    put(tmp_path / "notes.txt", "bring chalk")
    put(tmp_path / "broken.json", '{"journal": 3}')
    path = tmp_path / named
    with pytest.raises(ValueError, match=r"no such file|it is no plan|no results file"):
        begin(path)


async def test_a_plan_begins_from_what_a_class_was_run_by(tmp_path: Path) -> None:
    plan, _ = read_plan(bundled("plans") / "sandbox.toml")
    assert plan is not None
    text = (bundled("plans") / "sandbox.toml").read_text("utf-8")
    session = open_session(
        PlanFile("sandbox", text, plan),
        people_named(["Ilse"]),
        folder=tmp_path,
        club=Club(),
        source=WoundSource(),
        sound=False,
    )
    session.close()
    (tmp_path / "results").mkdir(exist_ok=True)
    result = tmp_path / "results" / "2026-03-06-sandbox.json"
    put(result, json.dumps({"journal": session.journal.path.name}))
    begun = tomllib.loads(begin(result).text)
    assert begun["title"] == "New plan"
    assert begun["segment"] == tomllib.loads(text)["segment"]


async def test_a_new_plan_that_nobody_touched_leaves_nothing_behind(
    write: Write, tmp_path: Path
) -> None:
    async with write(begin("interval")) as coach:
        assert "not saved" in coach.seen
        await coach.press("escape", "escape", "escape")
    assert coach.said == ""
    assert DraftFile(tmp_path, None).read() is None


async def test_a_scheme_takes_the_place_of_rounds_and_backspace_brings_them_back(
    write: Write,
) -> None:
    async with write(begin("capped-for-time")) as coach:
        await coach.type("Last Tram")
        await coach.press("escape", "end", "enter")
        keys = [field.key for field in coach.screen.desk.fields]
        await coach.press(*["down"] * keys.index("scheme"))
        await coach.type("18 12 6")
        (segment,) = coach.values["segment"]
        assert segment["scheme"] == [18, 12, 6]
        assert "rounds" not in segment
        assert "instead of rounds" in coach.seen
        await coach.press("backspace")
        (segment,) = coach.values["segment"]
        assert "scheme" not in segment
        assert "rounds" in segment
