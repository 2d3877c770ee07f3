"""Several editors open at once: each has a draft of its own, and knows of another on its plan."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from classclock.drafts.own_draft import OwnDraft
from classclock.drafts.plan_being_written import KeptDraft, PlanOnDisk
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.pages.editor.plan_editor_screen import PlanEditorScreen

SAID = "open in another window too"
WRITTEN = KeptDraft('title = "Third Rail"\n', "2026-11-24T18:30:00+01:00")


class Editors:
    """Those of one club, each as its process would have it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.plan = folder / "turntable.toml"
        self.open: list[OwnDraft] = []

    def opens(self, plan: Path | None) -> OwnDraft:
        self.open.append(OwnDraft(self.folder, plan))
        return self.open[-1]


@pytest.fixture
def editors(tmp_path: Path) -> Iterator[Editors]:
    editors = Editors(tmp_path)
    yield editors
    for one in editors.open:
        one.release()


def test_two_new_plans_at_once_have_a_draft_each_and_one_that_is_kept_is_taken_up_first(
    editors: Editors,
) -> None:
    first, second = editors.opens(None), editors.opens(None)
    assert first.file.path != second.file.path
    assert first.alone
    assert second.alone  # it is another plan
    second.file.keep(WRITTEN)
    second.release()  # as the end of its process does
    kept = editors.opens(None).file.read()
    assert kept is not None
    assert "Third Rail" in kept.text


def test_two_editors_of_one_plan_have_a_draft_each_and_the_second_knows(editors: Editors) -> None:
    first, second = editors.opens(editors.plan), editors.opens(editors.plan)
    assert first.file.path != second.file.path
    assert (first.alone, second.alone) == (True, False)
    second.release()
    first.release()
    again = editors.opens(editors.plan)
    assert (again.file.path, again.alone) == (first.file.path, True)


def test_one_that_takes_up_a_kept_draft_knows_of_another_that_has_written_nothing(
    editors: Editors,
) -> None:
    first, second = editors.opens(editors.plan), editors.opens(editors.plan)
    second.file.keep(WRITTEN)
    second.release()
    third = editors.opens(editors.plan)
    assert third.file.path == second.file.path
    assert not third.alone
    assert first.alone


def test_no_lock_is_left_behind(editors: Editors) -> None:
    editors.opens(editors.plan).release()
    assert not list((editors.folder / "drafts").iterdir())


def test_the_editor_says_that_its_plan_is_open_elsewhere(editors: Editors) -> None:
    plan = PlanOnDisk('title = "Turntable"\n', editors.plan)
    alone = PlanEditorScreen(Look(), plan, folder=editors.folder, club=Club())
    beside = PlanEditorScreen(Look(), plan, folder=editors.folder, club=Club())
    assert SAID not in alone.desk.notice
    assert SAID in beside.desk.notice
    beside.on_unmount()
    alone.on_unmount()
