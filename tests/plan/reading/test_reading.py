"""Plans read back as they were written, and nothing that is written ends in a traceback."""

import json
from collections.abc import Mapping
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from classclock.machine.bundled import bundled
from classclock.plan.findings import Finding
from classclock.plan.formats.capped_for_time import CappedForTime
from classclock.plan.formats.interval import Interval
from classclock.plan.formats.rounds_in_time import RoundsInTime
from classclock.plan.model import Plan, is_piece
from classclock.plan.reading.plan_reading import parse_plan
from classclock.units.loads import Load
from classclock.units.printable import can_be_shown, printable
from classclock.units.times import show_time

NAMES = st.text("abcdefghij éñłš'-", min_size=1).map(str.strip).filter(bool)
TIMES = st.integers(1, 5_999).map(lambda seconds: show_time(seconds * 1000))
REPS = st.integers(1, 500)
FRAGMENTS = st.lists(
    st.sampled_from(
        [
            *"[]{}=,.\"'#\n\n\n :",
            "[[segment]]\n",
            "[[segment.station]]\n",
            "title",
            "name = ",
            'format = "interval"\n',
            'format = "capped-for-time"\n',
            "steps = [{ work = ",
            "time = 16:00",
            '"0:20"',
            "reps = 4\n",
            "load = ",
            "station = ",
            "segment = ",
            "nan",
            "-1",
            "true",
            '"""',
            "2026-03-31",
            "00:16:00",
            "\x1b",
            "é",
        ]
    ),
    max_size=40,
).map("".join)


@given(st.text() | st.binary() | FRAGMENTS)
def test_whatever_a_file_holds_there_is_a_plan_or_a_finding(text: str | bytes) -> None:
    plan, findings = parse_plan(text, "depot.toml")
    assert (plan is None) == any(one.level == "error" for one in findings)
    for one in findings:
        assert one.what
        assert one.instead
        assert can_be_shown(str(one))


SAMPLES = [file.read_bytes() for file in bundled("plans").glob("*.toml")]
SLIPS = st.tuples(
    st.integers(0, 4_000),
    st.integers(0, 12),
    st.sampled_from([b"", *(bytes([sign]) for sign in b"\"[]{}=\n,0\\\x00\xff#.' "), b'"""', b"5"]),
)


@given(st.sampled_from(SAMPLES), st.lists(SLIPS, min_size=1, max_size=6))
def test_slips_in_a_good_plan_end_in_findings_too(
    data: bytes, slips: list[tuple[int, int, bytes]]
) -> None:
    for place, cut, put in slips:
        data = data[:place] + put + data[place + cut :]
    plan, findings = parse_plan(data, "depot.toml")
    assert (plan is None) == any(one.level == "error" for one in findings)
    assert all(0 < one.line <= data.count(b"\n") + 1 for one in findings)


def as_toml(value: object) -> str:
    """A value as TOML writes it: JSON's texts and numbers, tables in braces."""
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{key} = {as_toml(item)}" for key, item in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(as_toml(item) for item in value) + "]"
    return json.dumps(value, ensure_ascii=False)


AMOUNTS = st.one_of(
    st.fixed_dictionaries({"reps": REPS}),
    st.fixed_dictionaries({"metres": REPS, "counts": st.integers(1, 50)}),
    st.fixed_dictionaries({"climb": st.fixed_dictionaries({"first": REPS, "step": REPS})}),
)
STATIONS = st.builds(lambda name, amount: {"movement": name, **amount}, NAMES, AMOUNTS)
HEADS = {"caution": st.lists(NAMES, max_size=2), "separate": st.booleans()}
PIECES = st.one_of(
    st.fixed_dictionaries({"format": st.just("countdown"), "time": TIMES, **HEADS}),
    st.fixed_dictionaries(
        {
            "format": st.just("interval"),
            "repeat": st.integers(1, 200),
            "steps": st.lists(
                st.fixed_dictionaries({"work": TIMES}) | st.fixed_dictionaries({"rest": TIMES}),
                min_size=1,
                max_size=4,
            ).filter(lambda steps: any("work" in step for step in steps)),
            **HEADS,
        }
    ),
    st.fixed_dictionaries(
        {
            "format": st.just("rounds-in-time"),
            "time": TIMES,
            "station": st.lists(STATIONS, min_size=1, max_size=3),
            **HEADS,
        }
    ),
    st.fixed_dictionaries(
        {
            "format": st.just("capped-for-time"),
            "cap": TIMES,
            "rounds": st.integers(1, 200),
            "station": st.lists(STATIONS, min_size=1, max_size=3),
            **HEADS,
        }
    ),
)


@given(NAMES, st.lists(PIECES, min_size=1, max_size=4))
def test_a_plan_reads_back_as_it_was_written(title: str, pieces: list[dict[str, object]]) -> None:
    segments = [{"name": f"Piece {number}", **piece} for number, piece in enumerate(pieces)]
    text = f"title = {as_toml(title)}\n"
    for segment in segments:
        text += "[[segment]]\n"
        text += "".join(f"{key} = {as_toml(value)}\n" for key, value in segment.items())
    plan, findings = parse_plan(text, "depot.toml")
    assert findings == ()
    assert plan == Plan.model_validate({"title": title, "segment": segments})


def test_the_words_of_the_plan_arrive_in_the_model() -> None:
    text = """
title = "Week 9"
[[segment]]
name = "Squat"
format = "interval"
repeat = 1
steps = [{ work = "PT2M" }]
lift = "front squat"
sets = [{ reps = 3, percent = 77.5 }]
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = 960
  [[segment.station]]
  movement = "push press"
  climb = { first = 4, step = 2 }
  load = { heavier = "22,5 kg", lighter = 35 }
  options = ["seated", { name = "step-up", reps = 4 }]
[[segment]]
name = "Sandbox"
format = "capped-for-time"
cap = "1:00:00"
scheme = [18, 12, 6]
  [[segment.station]]
  movement = "sit-up"
"""
    plan, findings = parse_plan(text, "depot.toml", unit="lb")
    assert findings == ()
    assert plan is not None
    squat, turntable, sandbox = plan.segment
    assert isinstance(squat, Interval)
    assert (squat.steps[0].work, squat.sets[0].percent) == (120_000, 77.5)
    assert not is_piece(squat)
    assert isinstance(turntable, RoundsInTime)
    assert turntable.time == 960_000
    (press,) = turntable.station
    assert press.load == {
        "heavier": Load(Decimal("22.5"), "kg"),
        "lighter": Load(Decimal(35), "lb"),
    }
    assert [(option.name, option.reps) for option in press.options] == [
        ("seated", None),
        ("step-up", 4),
    ]
    assert isinstance(sandbox, CappedForTime)
    assert (sandbox.cap, sandbox.scheme, sandbox.count_in) == (3_600_000, (18, 12, 6), 10_000)


def test_a_finding_stands_in_one_line_that_no_terminal_obeys() -> None:
    finding = Finding("a\x1b[2J.toml", 3, "Tur\u202entable", "bad\nkey", "Write it anew")
    shown = "a\\x1b[2J.toml:3  Tur\\u202entable: bad\\nkey. Write it anew."
    assert str(finding) == shown
    assert str(Finding("x.toml", 0, None, "a folder", "Name a file", "hint")) == (
        "x.toml  hint: a folder. Name a file."
    )


@given(st.text(st.characters(categories=["Cc", "Cf", "Cs", "Zl", "Zp", "Ll"])))
def test_no_control_or_bidi_character_reaches_a_terminal(text: str) -> None:
    assert can_be_shown(printable(text))


def test_every_kind_of_space_is_shown_as_a_plain_one() -> None:
    assert printable("7\u00a0rounds\u2009each\u3000") == "7 rounds each "
