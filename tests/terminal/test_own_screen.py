"""The coach's own screen in a real terminal: asked once, turned there and back, never told on."""

import json
from typing import Any

import pytest

from tests.terminal.conftest import GUARD

CTRL_W, F7 = "\x17", "\x1b[18~"


@pytest.mark.real_time
def test_ctrl_w_turns_the_screen_there_and_back_while_the_class_runs(club: Any) -> None:
    laptop = club.piece("Ilse, Bram, Noor", speed=1)
    laptop.type(CTRL_W)
    laptop.shows("the room mustn't see")
    laptop.type("n")
    laptop.says("Noor, round 1")
    laptop.type("\x1b")
    laptop.waits_for(lambda: "mustn't see" not in laptop.text, "the question to go")
    laptop.passes(GUARD)
    laptop.type(CTRL_W)
    laptop.shows("the room mustn't see")
    laptop.type(F7)
    laptop.shows("Last entries", "Noor, a tap", "backspace")
    laptop.type("i")
    laptop.shows("Ilse, a tap")
    laptop.passes(GUARD)
    laptop.type(CTRL_W)
    laptop.waits_for(lambda: "Last entries" not in laptop.text, "the wall")
    laptop.passes(GUARD)
    laptop.type(CTRL_W)
    laptop.shows("Last entries")
    laptop.type("\x05Noor: left knee\r")  # ctrl+e
    laptop.shows("note: left knee")
    assert club.taps() == ["Noor", "Ilse"]
    (view,) = (club.home / "journals").glob("*.view")
    assert "knee" not in json.dumps(json.loads(view.read_text("utf-8")))
