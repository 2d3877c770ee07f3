"""A plan that is being written, in a real terminal that dies."""

from typing import Any

import pytest

from classclock.drafts.plan_being_written import DraftFile
from tests.signals import KILL


@pytest.mark.real_time
def test_half_a_word_outlives_a_process_that_is_killed(club: Any) -> None:
    writing = club.start("new", "rounds-in-time")
    writing.shows("New plan", "enter takes it")
    writing.type("Night Line\r")
    writing.shows("Night Line", "escape back to the list")
    writing.type("\x1b")
    writing.shows("letters: a station")
    writing.type("\x1b[B")
    writing.type("wall b")
    kept = DraftFile(club.home, None)
    writing.waits_for(lambda: _typed(kept) == "wall b", "the last key to be kept")
    writing.signal(KILL)
    assert writing.status() == -KILL

    again = club.start("new", "countdown")
    again.shows("a draft from", "enter goes on with it")
    again.type("\r")
    again.shows("wall b", "a new station in Rounds")
    again.type("\r")
    again.shows("how much of")
    again.type("12\r")
    again.type("\x13")
    again.shows("saved as night-line.toml")
    saved = (club.home / "plans" / "night-line.toml").read_text("utf-8")
    assert 'format = "rounds-in-time"' in saved
    assert "reps = 12" in saved
    assert kept.read() is None


@pytest.mark.real_time
def test_the_coachs_own_editor_has_the_terminal_and_hands_it_back(club: Any, tmp_path: Any) -> None:
    editor = tmp_path / "own-editor"
    editor.write_text('#!/bin/sh\necho own editor here; read reply; sed -i s/8:00/9:30/ "$1"\n')
    editor.chmod(0o700)
    writing = club.start("edit", club.plan("8:00"), VISUAL=str(editor))
    writing.shows("letters: a station")
    writing.type("\x05")
    writing.shows("own editor here")
    writing.type("\r")
    writing.shows("taken over from your editor", "9:33 with count-ins")


def _typed(kept: DraftFile) -> str:
    draft = kept.read()
    return "" if draft is None else draft.typed
