"""The coach's screen as cells: everybody is there at every size, and whatever is typed is text."""

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.coach.coach_head import CoachHead
from classclock.screens.live.coach.coach_lane_drawing import draw_coach_lane
from classclock.screens.live.coach.coach_layout import lay_out_coach
from classclock.screens.live.coach.flowing import flowing
from classclock.screens.live.coach.section_drawing import draw_section
from classclock.units.printable import can_be_shown, printable
from classclock.wall.coach.coach_values import (
    CoachContent,
    CoachLane,
    CoachLine,
    CoachSection,
    LaneWords,
    SectionName,
)
from classclock.wall.wall_content import WallContent

NAMES = (
    *("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell", "Anouk"),
    *("Cato", "Dagny", "Ewa", "Femke", "Goran", "Hanne", "Jory", "Kees", "Lior"),
    *("Mirza", "Quinn", "Rune", "Vesna", "Wiebe", "Xanthe", "Yara", "Zeno"),
)
SIZES = ((60, 17), (80, 23), (120, 35), (213, 59))
HEAD = WallContent(
    clock="12:31",
    title="Turntable",
    words="rounds in 16:00",
    stations=("6 box step-over", "12 bodyweight squat"),
    cautions=("Dizzy, chest pain, sharp pain: stop and call the coach.", "Step down."),
    longest_clock="16:00",
)
SECTIONS: tuple[SectionName, ...] = ("asked", "entries", "plan", "notes")


def content(lanes: int, *, clears: bool = False, clock: str = "12:31") -> CoachContent:
    head = WallContent(**{**{f: getattr(HEAD, f) for f in HEAD.__struct_fields__}, "clock": clock})
    about = (
        LaneWords("? set 1: made?", "doubtful"),
        LaneWords("lower box"),
        LaneWords("2nd", "quiet"),
    )
    line = CoachLine("Noor, a tap", "12:31", "backspace")
    return CoachContent(
        head,
        tuple(
            CoachLane(name[0], name, "7+12", "7", ("12+12", "12"), "?%", about)
            for name in NAMES[:lanes]
        ),
        tuple(CoachSection(name, "Heading", (line,) * 6, "takes it back") for name in SECTIONS),
        clears,
    )


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("lanes", [1, 3, 8, 12, 18, 26])
@pytest.mark.parametrize("dots", ["halves", "sextants", None])
def test_everybody_has_key_name_and_score_in_one_view(
    check_filled: Any, size: tuple[int, int], lanes: int, dots: Any
) -> None:
    look = Look(terminal=Terminal(dots=dots))
    shown = content(lanes)
    laid = lay_out_coach(shown, *size, CellMeasure(look.terminal))
    assert laid.lane is not None
    boxes = [laid.clock.box] if laid.clock else []
    boxes += [laid.head, *laid.sections.values()]
    taken: set[tuple[int, int]] = set()
    boxes += [(x, y, laid.lane.width, laid.lane.rows) for x, y in laid.corners]  # type: ignore[misc]
    for x, y, wide, high in boxes:
        assert x >= 0 <= y
        assert x + wide <= size[0]
        assert y + high <= size[1]
        cells = {(i, j) for i in range(x, x + wide) for j in range(y, y + high)}
        assert not cells & taken, "none over another"
        taken |= cells
    assert laid.sections.keys() >= {"asked", "entries"}
    for lane in shown.lanes:
        drawn = draw_coach_lane(lane, laid.lane, look)
        check_filled(drawn, laid.lane.width, laid.lane.rows)
        if laid.lane.name.size == 1:
            text = plain_text(drawn)
            assert f" {lane.key} " in text
            assert lane.name[:7] in text
            assert re.search(r"7(\+12)?\b", text)
    assert laid.clock is not None
    assert laid.clock.size > laid.lane.name.size, "the clock is the largest"
    assert laid.clock.size >= 3


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("lanes", [0, 1, 12, 26])
def test_no_caution_is_left_out_before_a_start(size: tuple[int, int], lanes: int) -> None:
    look = Look()
    shown = content(lanes, clears=True, clock="")
    laid = lay_out_coach(shown, *size, CellMeasure(look.terminal))
    assert laid.clock is None
    head = CoachHead(look)
    head.content, head.clears = shown.head, True
    text = " ".join(plain_text(head.paint(laid.head.width, laid.head.height)).split())
    for caution in HEAD.cautions:
        assert caution in text


def test_a_long_name_is_cut_before_anybody_is_left_out() -> None:
    long = "Wilhelmina Alexandrina van der Spoorwegovergang"[:40]
    shown = content(26)
    lanes = (CoachLane("Z", long, "7+12", "7", ("12+12", "12")), *shown.lanes[1:])
    laid = lay_out_coach(CoachContent(HEAD, lanes, shown.sections), 60, 17, CellMeasure(Terminal()))
    assert laid.lane is not None
    assert len({corner for corner in laid.corners if corner[1] < 17}) == 26
    drawn = plain_text(draw_coach_lane(lanes[0], laid.lane, Look()))
    assert "…" in drawn
    assert "7" in drawn


HOSTILE = st.text(
    st.characters(blacklist_categories=["Cs"]) | st.sampled_from("\x1b\x07\u202e\u200b[;m"),
    max_size=40,
)


@given(HOSTILE, HOSTILE, st.sampled_from(SIZES))
@settings(max_examples=40, deadline=None)
def test_hostile_words_are_text(name: str, words: str, size: tuple[int, int]) -> None:
    look = Look(SIXTEEN, Terminal(colours=16))
    name, words = printable(name, 40), printable(words)  # as all that comes here is
    lanes = tuple(
        CoachLane(letter, name, about=(LaneWords(words, "doubtful"),), selected=letter == "I")
        for letter in "IBN"
    )
    section = CoachSection("notes", words, (CoachLine(words, name[:5], "-n"),) * 3)
    laid = lay_out_coach(CoachContent(HEAD, lanes, (section,)), *size, CellMeasure(look.terminal))
    assert laid.lane is not None
    drawings = [draw_coach_lane(lane, laid.lane, look) for lane in lanes]
    drawings.append(draw_section(section, *laid.sections["notes"][2:], look))
    for row in (row for drawn in drawings for row in drawn):
        assert can_be_shown("".join(segment.text for segment in row))


@given(
    st.lists(st.builds(LaneWords, st.text("ab é一 ", max_size=30)), max_size=5),
    st.integers(2, 30),
    st.integers(1, 4),
)
@settings(max_examples=80, deadline=None)
def test_words_that_flow_stay_within_their_box_and_say_where_more_would_come(
    said: list[LaneWords], columns: int, rows: int
) -> None:
    lines = flowing(said, columns, rows)
    texts = ["".join(piece.words for piece in line) for line in lines]
    assert len(texts) <= rows
    assert all(cell_len(text) <= columns for text in texts)
    whole = "".join("".join(one.words.split()) for one in said)
    shown = "".join(texts).replace(" ", "").replace(";", "")
    if not shown.endswith("…"):
        assert shown == whole


def test_a_section_that_is_too_low_says_how_many_more_there_are() -> None:
    lines = tuple(CoachLine(f"Noor {n}: odd reps?", "N") for n in range(5))
    section = CoachSection("asked", "Ask next", lines, "provisional, saved")
    drawn = plain_text(draw_section(section, 40, 4, Look())).split("\n")
    assert drawn[0].split() == ["Ask", "next", "provisional,", "saved"]
    assert drawn[1].startswith("N Noor 0: odd reps?")
    assert drawn[3].startswith("and 3 more")
    assert plain_text(draw_section(section, 40, 1, Look())).startswith("N Noor 0")
