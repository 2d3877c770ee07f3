"""Writing a plan by keys, in front of its screen."""

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.club.plan_files import read_plan
from classclock.drafts.new_plan_list import begin
from classclock.drafts.plan_being_written import open_plan
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.pages.editor.plan_editor_drawing import draw_editor


def text_of(path: Path) -> str:
    return path.read_bytes().decode()


def values(coach: Any) -> dict[str, Any]:
    """What the plan says now."""
    return tomllib.loads(coach.page.desk.draft.text)


async def test_a_plan_is_written_from_nothing_by_keys(write: Any, tmp_path: Path) -> None:
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
    assert coach.result == f"saved: {path}"
    plan, findings = read_plan(path)
    assert plan is not None, findings
    assert [segment.name for segment in plan.segment] == ["Warm-up", "Third Rail"]
    piece = plan.segment[1]
    assert [station.movement for station in piece.station] == ["row", "box step-over"]
    assert piece.station[0].metres == 250
    assert not (tmp_path / "drafts" / "new.json").exists()


async def test_comments_stay_when_a_plan_is_edited(
    write: Any, sunday: Path, commented: str
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "enter", "down", "down")
        await coach.type("9:00")
        await coach.press("escape", "ctrl+s", "escape")
    assert text_of(sunday) == commented.replace('"8:00"', '"9:00"')


async def test_backspace_in_the_list_takes_every_edit_back(
    write: Any, sunday: Path, commented: str
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "right_square_bracket", "minus", "up", "equals_sign")
        assert coach.page.desk.draft.text != commented
        await coach.press(*["backspace"] * 3)
        assert coach.page.desk.draft.text == commented
        assert "saved" in coach.seen


async def test_escape_leaves_a_value_as_it_was(write: Any, sunday: Path, commented: str) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "enter", "x", "y", "escape", "escape")
        assert coach.page.desk.draft.text == commented
        await coach.press("escape")
    assert coach.result == ""


async def test_the_first_letters_propose_movements_and_down_chooses(
    write: Any, sunday: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("end", "b", "o", "x")
        assert "box jump" in coach.seen
        await coach.press("down", "enter")
        await coach.type("8")
        stations = values(coach)["segment"][1]["station"]
        assert stations[1] == {"movement": "box jump", "reps": 8}


async def test_words_of_ones_own_can_be_a_movement(write: Any, sunday: Path) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("end", "b", "o", "x", "up", "enter", "escape")
        assert values(coach)["segment"][1]["station"][1]["movement"] == "box"
        await coach.type("points lever drag")
        await coach.press("escape")
        assert values(coach)["segment"][1]["station"][2]["movement"] == "points lever drag"


async def test_a_plan_with_a_fault_is_saved_and_says_what_is_wrong(
    write: Any, sunday: Path
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


async def test_the_coachs_own_editor_is_named_when_there_is_none(
    write: Any, sunday: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("VISUAL", raising=False)
    monkeypatch.delenv("EDITOR", raising=False)
    async with write(open_plan(sunday)) as coach:
        await coach.press("ctrl+e")
        assert "set VISUAL or EDITOR" in coach.seen


@pytest.mark.parametrize("size", [(60, 18), (80, 24), (120, 36), (213, 60)])
async def test_every_state_fills_its_window_and_says_its_keys(
    write: Any,
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
            check_filled(draw_editor(coach.page.desk, *size, Look()), *size)
            assert "escape" in coach.seen


async def test_a_scheme_takes_the_place_of_rounds_and_backspace_brings_them_back(
    write: Any,
) -> None:
    async with write(begin("capped-for-time")) as coach:
        await coach.type("Last Tram")
        await coach.press("escape", "end", "enter")
        keys = [field.key for field in coach.page.desk.fields]
        await coach.press(*["down"] * keys.index("scheme"))
        await coach.type("18 12 6")
        (segment,) = values(coach)["segment"]
        assert segment["scheme"] == [18, 12, 6]
        assert "rounds" not in segment
        assert "instead of rounds" in coach.seen
        await coach.press("backspace")
        (segment,) = values(coach)["segment"]
        assert "scheme" not in segment
        assert "rounds" in segment
