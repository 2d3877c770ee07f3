"""The files behind the editor: what is saved, what is kept as a draft, and nobody's plan lost."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from classclock.drafts.new_plan_list import begin
from classclock.drafts.plan_being_written import DraftFile, open_plan
from classclock.machine.bundled import bundled
from classclock.screens.pages.editor.draft_changes import set_value


def text_of(path: Path) -> str:
    return path.read_bytes().decode()


def put(path: Path, text: str, mode: int = 0o600) -> None:
    path.write_bytes(text.encode())
    path.chmod(mode)


def mode_of(path: Path) -> int:
    return path.stat().st_mode & 0o777


def values(coach: Any) -> dict[str, Any]:
    """What the plan says now."""
    return tomllib.loads(coach.page.desk.draft.text)


async def test_a_file_that_somebody_else_changed_is_not_overwritten_unasked(
    write: Any, sunday: Path, commented: str, tmp_path: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus")
        put(sunday, "# theirs\n" + commented)
        await coach.press("ctrl+s")
        assert "changed by somebody else" in coach.seen
        await coach.press("ctrl+s", "escape")
        assert text_of(sunday).startswith("# theirs")
        await coach.press("ctrl+s", "n")
    assert text_of(sunday).startswith("# theirs")
    assert len(tomllib.loads((tmp_path / "plans/sandbox-sunday.toml").read_text())["segment"]) == 1


async def test_what_is_half_typed_is_offered_the_next_time(
    write: Any, sunday: Path, tmp_path: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus", "end", *"bod")
        # Here the process is gone: no key, no word of farewell.
    async with write(open_plan(sunday)) as coach:
        assert "a draft from" in coach.seen
        await coach.press("enter")
        assert [one["name"] for one in values(coach)["segment"]] == ["Sandbox"]
        assert coach.page.desk.entry is not None
        assert coach.page.desk.entry.line.text == "bod"
        await coach.press("enter", "4", "enter", "ctrl+s")
        assert tomllib.loads(text_of(sunday))["segment"][0]["station"][1] == {
            "movement": "bodyweight squat",
            "reps": 4,
        }
    assert not list((tmp_path / "drafts").iterdir())


async def test_a_draft_that_is_dropped_is_gone(
    write: Any, sunday: Path, commented: str, tmp_path: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus")
    async with write(open_plan(sunday)) as coach:
        await coach.press("x")
        assert "a draft from" in coach.seen
        await coach.press("d")
        assert coach.page.desk.draft.text == commented
    assert not list((tmp_path / "drafts").iterdir())


async def test_a_draft_whose_file_changed_since_asks_before_it_writes_over_it(
    write: Any, sunday: Path, commented: str
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus")
    put(sunday, "# theirs\n" + commented)
    async with write(open_plan(sunday)) as coach:
        await coach.press("enter", "ctrl+s")
        assert "changed by somebody else" in coach.seen
        await coach.press("o")
    assert not text_of(sunday).startswith("# theirs")


async def test_a_sample_plan_is_edited_as_a_copy(write: Any, tmp_path: Path) -> None:
    sample = bundled("plans") / "sandbox.toml"
    before = sample.read_bytes()
    async with write(open_plan(sample)) as coach:
        await coach.press("down", "minus", "ctrl+s")
    assert sample.read_bytes() == before
    assert (tmp_path / "plans" / "sandbox-friday.toml").exists()


async def test_leaving_asks_and_the_draft_stays(
    write: Any, sunday: Path, commented: str, tmp_path: Path
) -> None:
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "minus", "escape")
        assert "this isn't saved yet" in coach.seen
        await coach.press("enter")
    assert coach.result == "the plan isn't saved; its draft is offered the next time"
    assert DraftFile(tmp_path, sunday).read() is not None
    assert text_of(sunday) == commented


@pytest.mark.parametrize("title", ["../../etc/passwd", "\x1b[2J", "a\0b", "x" * 400, "日本", ""])
async def test_no_title_writes_outside_the_clubs_plans(
    write: Any, tmp_path: Path, title: str
) -> None:
    async with write(begin("countdown")) as coach:
        await coach.press("escape")
        set_value(coach.page.desk.draft, "title", title)
        await coach.press("escape", "ctrl+s")
        await coach.press("escape")
    (saved,) = (tmp_path / "plans").iterdir()
    assert len(saved.name) < 80
    assert saved.name.isascii()


async def test_a_plan_never_takes_another_ones_file(write: Any, tmp_path: Path) -> None:
    for _ in range(2):
        async with write(begin("countdown")) as coach:
            await coach.type("Headway")
            await coach.press("escape", "ctrl+s")
    assert sorted(path.name for path in (tmp_path / "plans").iterdir()) == [
        "headway-2.toml",
        "headway.toml",
    ]


async def test_line_ends_stay_as_the_file_had_them(
    write: Any, sunday: Path, commented: str
) -> None:
    put(sunday, commented.replace("\n", "\r\n"), mode=0o644)
    async with write(open_plan(sunday)) as coach:
        await coach.press("down", "enter", "down", "down")
        await coach.type("9:00")
        await coach.press("ctrl+s")
    assert text_of(sunday) == commented.replace('"8:00"', '"9:00"').replace("\n", "\r\n")
    assert mode_of(sunday) == 0o644


async def test_a_new_plan_that_nobody_touched_leaves_nothing_behind(
    write: Any, tmp_path: Path
) -> None:
    async with write(begin("interval")) as coach:
        assert "not saved" in coach.seen
        await coach.press("escape", "escape", "escape")
    assert coach.result == ""
    assert DraftFile(tmp_path, None).read() is None
