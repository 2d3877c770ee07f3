"""Who is asked what at the settle, and what the answers do."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lane_tally import LaneTally
from classclock.tally.lanes import Lane
from classclock.tally.scores.questions import ScoreQuestion, questions
from classclock.tally.sheet import newest_entries
from classclock.units.loads import Load

OVER = "20:00"


def words(piece: Any) -> list[tuple[str, str]]:
    return [(one.lane, one.words) for one in questions(piece.sheet)]


def answer(piece: Any, sign: str, number: str = "") -> str:
    """Answer what is asked first: `enter`, `-` or a number; what was refused, in words."""
    first = questions(piece.sheet)[0]
    match sign:
        case "enter":
            event = ev.LetStand(piece.at(OVER), first.lane, first.doubt, first.intervals)
            piece.happen(event)
            return ""
        case "-":
            said: str = piece.do(cmd.TakeOut(first.lane, first.doubt), OVER)
            return said
    interval = first.intervals[0] if first.intervals else None
    instead = first.doubt == "load"
    typed = cmd.SetNumber(first.lane, Decimal(number), None, interval, instead)
    refused: str = piece.do(typed, OVER)
    return refused


def test_odd_reps_that_nobody_gave_are_asked_for_in_the_order_of_the_lanes(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(**turntable)
    piece.number("Bram", 1, "2:10", rounds=1)
    assert words(piece) == [("Ilse", "odd reps?"), ("Noor", "odd reps?")]
    answer(piece, "number", "5")
    assert words(piece) == [("Noor", "odd reps?")]
    assert piece.score("Ilse").score == "0+5"
    answer(piece, "enter")
    assert words(piece) == []
    assert piece.score("Noor").score == "0+0"


def test_who_stopped_before_doing_anything_is_asked_nothing(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(names=("Noor",), **turntable)
    piece.do(cmd.StopLane("Noor"), "0:30")
    assert words(piece) == []


def test_nothing_is_asked_once_it_is_settled(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.settle("16:30")
    assert words(piece) == []


def test_intervals_that_nobody_gave_are_one_question_and_numbers_go_to_them_in_order(
    rehearsal: Any, headway: Any
) -> None:
    piece = rehearsal(names=("Noor",), **headway)
    for interval in (1, 2, 4, 5, 6, 7):
        piece.number("Noor", 9, "4:00", interval=interval)
    assert words(piece) == [("Noor", "intervals 3, 8?")]
    answer(piece, "number", "11")
    assert words(piece) == [("Noor", "interval 8?")]
    assert piece.tally("Noor").intervals[2] == 11


def test_an_interval_let_stand_stays_unknown_and_is_not_asked_again(
    rehearsal: Any, headway: Any
) -> None:
    piece = rehearsal(names=("Noor",), **{**headway, "score": "lowest"})
    for interval in range(1, 8):
        piece.number("Noor", 9, "4:00", interval=interval)
    answer(piece, "enter")
    assert words(piece) == []
    assert piece.score("Noor", settled=True).score == "?"
    piece.do(cmd.TakeBack(newest=2), OVER)  # the reps of interval 7: nobody was asked of those
    assert words(piece) == [("Noor", "interval 7?")]


def fast(rehearsal: Any, turntable: Any) -> Any:
    """Noor's fourth round came twice: 1:00, 2:00, 3:00, 4:00 and 4:02, then 5:00."""
    piece = rehearsal(names=("Noor",), **turntable)
    piece.tap("Noor", "1:00", "2:00", "3:00", "4:00", "4:02", "5:00")
    piece.number("Noor", 3, "16:05")
    return piece


def test_two_taps_for_one_round_are_asked_about_and_the_second_is_taken_out(
    rehearsal: Any, turntable: Any
) -> None:
    piece = fast(rehearsal, turntable)
    assert words(piece) == [("Noor", "round 5 came fast: two taps?")]
    assert answer(piece, "-") == ""
    assert words(piece) == []
    splits = [done.split for done in piece.tally("Noor").rounds]
    assert splits == [60_000, 60_000, 60_000, 60_000, 60_000]


def test_a_fast_round_that_was_one_stands_on_enter(rehearsal: Any, turntable: Any) -> None:
    piece = fast(rehearsal, turntable)
    answer(piece, "enter")
    assert words(piece) == []
    assert piece.score("Noor").score == "6+3"
    piece.do(cmd.TakeBack("Noor"), OVER)
    assert words(piece) == [("Noor", "round 5 came fast: two taps?")]


def test_a_station_that_came_fast_in_the_round_in_progress_is_asked_about(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(names=("Noor",), **turntable, count="station")
    minutes = [f"{minute}:00" for minute in range(1, 13)]
    piece.tap("Noor", *minutes, "12:01")
    piece.number("Noor", 6, OVER)
    assert words(piece) == [("Noor", "a station came fast: two taps?")]
    answer(piece, "enter")
    assert words(piece) == []


def test_rounds_never_called_are_asked_about_one_by_one(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(names=("Noor",), **third_rail)
    piece.tap("Noor", "1:00", "2:00")
    piece.do(cmd.FinishNow("Noor"), "5:00")
    assert words(piece) == [
        ("Noor", "round 3 was never called: right?"),
        ("Noor", "round 4 was never called: right?"),
    ]
    answer(piece, "enter")
    assert words(piece) == [("Noor", "round 4 was never called: right?")]
    assert answer(piece, "-") == ""  # the finish it comes from
    assert words(piece) == [("Noor", "odd reps?")]


def lift(rehearsal: Any) -> Any:
    lane = {"Noor": {"heaviest": Load(Decimal(80), "kg")}}
    return rehearsal(("Noor",), lane, format="countdown", time="12:00", score="load")


@pytest.mark.parametrize(
    ("sign", "number", "score"),
    [("enter", "", "825 kg"), ("number", "82.5", "82.5 kg"), ("-", "", "80 kg")],
)
def test_a_load_in_doubt_stands_is_another_or_is_taken_out(
    rehearsal: Any, sign: str, number: str, score: str
) -> None:
    piece = lift(rehearsal)
    for load, when in ((80, "1:00"), (825, "4:00")):
        piece.do(cmd.SetNumber("Noor", Decimal(load)), when)
    assert words(piece) == [("Noor", "825 kg: right?")]
    assert answer(piece, sign, number) == ""
    assert words(piece) == []
    assert piece.score("Noor").score == score


def test_a_load_put_right_keeps_its_place_among_the_attempts(rehearsal: Any) -> None:
    piece = lift(rehearsal)
    for load, when in ((825, "1:00"), (85, "4:00")):
        piece.do(cmd.SetNumber("Noor", Decimal(load)), when)
    answer(piece, "number", "82.5")
    tried = piece.tally("Noor").attempts
    assert [(str(one.load), one.at, one.number) for one in tried] == [
        ("82.5 kg", 60_000, 1),
        ("85 kg", 240_000, 2),
    ]


def test_a_load_that_is_far_above_as_well_is_asked_about_again(rehearsal: Any) -> None:
    piece = lift(rehearsal)
    piece.do(cmd.SetNumber("Noor", Decimal(825)), "1:00")
    answer(piece, "number", "182.5")
    assert words(piece) == [("Noor", "182.5 kg: right?")]


def test_a_correction_answers_all_that_was_asked(rehearsal: Any) -> None:
    piece = lift(rehearsal)
    piece.do(cmd.SetNumber("Noor", Decimal(825)), "1:00")
    piece.do(cmd.Correct("Noor", "82.5 kg", "a slip"), OVER)
    assert words(piece) == []


def test_odd_reps_that_a_smaller_round_cut_are_asked_for_again(
    rehearsal: Any, turntable: Any
) -> None:
    piece = rehearsal(names=("Noor",), **turntable)
    piece.number("Noor", 26, "2:00")
    piece.do(cmd.ChangeOption("Noor", 2), "3:00")  # a step-up of 4: the round has 25
    assert words(piece) == [("Noor", "odd reps of the smaller round?")]
    answer(piece, "number", "20")
    assert words(piece) == []
    assert piece.score("Noor").score == "0+20"


def test_an_entry_that_counts_no_more_is_asked_about(rehearsal: Any, third_rail: Any) -> None:
    piece = rehearsal(names=("Noor", "Ilse"), **third_rail)
    piece.number("Ilse", 0, "0:10")
    piece.tap("Noor", "1:00", "2:00", "3:00", "4:00")
    piece.do(cmd.FinishNow("Noor"), "5:00")
    piece.do(cmd.TakeBack("Noor"), "5:10")
    piece.tap("Noor", "6:00")
    assert piece.do(cmd.BringBack(), "6:10") == ""  # so that the tap came after the finish
    assert words(piece) == [("Noor", "a call counts no more: right?")]
    assert answer(piece, "-") == ""
    assert words(piece) == []


# -- whatever was typed --------------------------------------------------------------

LANES = ("Ilse", "Bram", "Noor")


@pytest.fixture(scope="session")
def pieces(
    rehearsal: Any, turntable: Any, third_rail: Any, headway: Any
) -> dict[str, Callable[[], Any]]:
    heavy = {name: {"heaviest": Load(Decimal(60), "kg")} for name in LANES[:2]}
    squat = {"format": "interval", "repeat": 3, "steps": [{"work": "2:00"}], "score": "load"}
    return {
        "rounds": lambda: rehearsal(**turntable),
        "stations": lambda: rehearsal(**turntable, count="station"),
        "for time": lambda: rehearsal(**third_rail),
        "total": lambda: rehearsal(**headway),
        "lowest": lambda: rehearsal(**{**headway, "score": "lowest"}),
        "load": lambda: rehearsal(LANES, heavy, format="countdown", time="12:00", score="load"),
        "sets": lambda: rehearsal(LANES, heavy, **squat),
        "reps": lambda: rehearsal(format="countdown", time="4:00", score="reps"),
    }


lanes = st.sampled_from(LANES)
typed = st.one_of(
    st.builds(cmd.Tap, lanes),
    st.builds(cmd.Tap, lanes),
    st.builds(cmd.SetNumber, lanes, st.integers(0, 26).map(Decimal)),
    st.builds(cmd.SetNumber, lanes, st.sampled_from([Decimal(60), Decimal(625)])),
    st.builds(cmd.SetNumber, lanes, st.none(), st.integers(0, 6)),
    st.builds(cmd.SetNumber, lanes, st.just(Decimal(9)), st.none(), st.integers(1, 8)),
    st.builds(cmd.FinishNow, lanes),
    st.builds(cmd.Miss, lanes, st.sampled_from([None, Decimal(70)])),
    st.builds(cmd.StopLane, lanes),
    st.builds(cmd.ChangeOption, lanes, st.integers(0, 3)),
    st.builds(cmd.Move, lanes, lanes),
    st.builds(cmd.TakeBack, st.none() | lanes, st.integers(1, 4)),
    st.just(cmd.BringBack()),
)
gaps = st.sampled_from([1, 2, 20, 60, 60, 60, 90])
histories = st.lists(st.tuples(gaps, typed), max_size=30)
answers = st.lists(st.sampled_from(["enter", "-", "number"]), min_size=1, max_size=8)


def played(piece: Any, history: list[tuple[int, cmd.CountCommand]]) -> Any:
    gone = 0
    for gap, command in history:
        gone = min(gone + gap, 1_190)
        piece.do(command, f"{gone // 60}:{gone % 60:02}")
    return piece


def sure(piece: Any, tally: LaneTally) -> bool:
    """Whether settling would change nothing of it, and no interval is unknown unasked."""
    ours = ("asks_missed",) if piece.sheet.piece.counts_by == "rounds" else ("asks_missed", "odd")
    settled = tally.settled()
    same = {field: getattr(tally, field) for field in ours}
    unknown = {n for n, reps in enumerate(tally.intervals, 1) if reps is None}
    left = unknown - set(tally.let_unknown)
    return replace(settled, **same) == tally and not left


@pytest.mark.parametrize(
    "kind", ["rounds", "stations", "for time", "total", "lowest", "load", "sets", "reps"]
)
@settings(max_examples=40)
@given(history=histories, cycle=answers)
def test_questions_end_when_all_is_known_and_every_answer_can_be_taken_back(
    pieces: dict[str, Callable[[], Any]],
    kind: str,
    history: list[tuple[int, cmd.CountCommand]],
    cycle: list[str],
) -> None:
    piece = played(pieces[kind](), history)
    most = 4 * (len(history) + 1) + 12 * len(LANES)
    for turn in range(most):
        asked = questions(piece.sheet)
        nobody_there = {
            lane
            for lane, tally in piece.sheet.tallies.items()
            if tally.stopped is not None and tally.nothing_done
        }
        unsure = {lane for lane, tally in piece.sheet.tallies.items() if not sure(piece, tally)}
        assert {one.lane for one in asked} == unsure - nobody_there
        order = [lane.id for lane in piece.sheet.lanes]
        assert [order.index(one.lane) for one in asked] == sorted(
            order.index(one.lane) for one in asked
        )
        if not asked:
            return
        answered(piece, asked[0], cycle[turn % len(cycle)])
    raise AssertionError([one.words for one in questions(piece.sheet)])


def answered(piece: Any, asked: ScoreQuestion, how: str) -> None:
    """Answer it, see that the tally is another, take that back, and answer it again."""
    before, entries = piece.sheet.tallies, len(piece.events)
    if (how == "number" and not asked.number) or (how == "-" and asked.doubt == "not given"):
        how = "enter"
    assert answer(piece, how, "50" if asked.doubt == "load" else "0") == ""
    assert piece.sheet.tallies != before
    last = piece.events[-1]
    undo: ev.CountEvent = ev.TookBack(piece.at(OVER), entries)
    redo: ev.CountEvent = ev.BroughtBack(piece.at(OVER), entries)
    if isinstance(last, ev.TookBack):
        undo, redo = ev.BroughtBack(last.at, last.entry), last
    after = piece.sheet.tallies
    piece.happen(undo)
    assert piece.sheet.tallies == before
    piece.happen(redo)
    assert piece.sheet.tallies == after


@given(history=histories)
def test_the_newest_entries_are_all_that_stand(
    rehearsal: Any, turntable: Any, history: list[tuple[int, cmd.CountCommand]]
) -> None:
    piece = played(rehearsal(**turntable), history)
    newest = newest_entries(piece.sheet)
    standing = {number for tally in piece.sheet.tallies.values() for number in tally.entries}
    assert set(newest) == standing
    for lane in piece.sheet.lanes:
        own = [number for number in newest if number in piece.tally(lane.id).entries]
        assert own == list(reversed(piece.tally(lane.id).entries))


def test_the_third_newest_is_taken_back_whoevers_it_is(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(**turntable)
    piece.tap("Ilse", "1:00")
    piece.tap("Bram", "1:01")
    piece.tap("Noor", "1:02")
    assert piece.do(cmd.TakeBack(newest=3), "1:05") == ""
    assert [len(piece.tally(name).rounds) for name in LANES] == [0, 1, 1]
    assert piece.do(cmd.TakeBack(newest=3), "1:06") == (
        "there are only 2 entries to take back: -2 and enter is the oldest"
    )


def test_lanes_of_two_names_are_asked_by_the_lanes_name(rehearsal: Any, turntable: Any) -> None:
    piece = rehearsal(names=("Noor",), lane={"Noor": {"name": "Noor + Ilse"}}, **turntable)
    assert [one.name for one in questions(piece.sheet)] == ["Noor + Ilse"]
    assert isinstance(piece.lanes[0], Lane)
