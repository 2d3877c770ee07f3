"""Editing a plan's text: what is set is read back, and nothing else is touched."""

import tomllib
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.machine.bundled import bundled
from classclock.plan.editing import edits
from classclock.plan.editing.draft import Draft
from classclock.plan.editing.fields import fields_of
from classclock.plan.editing.parts import HEAD, parts_of
from classclock.plan.editing.starts import copy_of, new_segment, plan_of
from classclock.plan.editing.values import amount_in, amount_typed, as_typed, read_value, to_toml
from classclock.plan.model import FORMATS
from classclock.plan.reading.plan_reading import parse_plan

COMMENTED = """\
#:schema ./plan.schema.json
# For the first week.

title = "Sandbox Sunday"  # ask Noor

# chalk is short
[[segment]]
name   = "Warm-up"
format = "countdown"
time   = "8:00"   # or nine

# --- the piece ---

# the box is at the west rail
[[segment]]
name   = "Sandbox"
format = "rounds-in-time"
time   = "12:00"

  # low boxes first
  [[segment.station]]
  movement = "box step-over" # both feet
  reps     = 6

  [[segment.station]]
  movement = "bodyweight squat"
  reps     = 12
  options  = [
    "squat to a box",  # a bench will do
    { name = "chair stand", reps = 8 },
  ]
"""
SAMPLES = sorted(bundled("plans").glob("*.toml"))
TYPED = {
    "title": ["Third Rail", 'the "odd" one', "[1]", '"', "Pâté \\ \x7f"],
    "date": ["2026-03-31", "soon"],
    "name": ["Headway", "a = 3 # not a comment"],
    "time": ["16:00", "90", "PT16M"],
    "lines": ["easy row; arm circles", "one", ";"],
    "scheme": ["18-12-6", "3 2 1", "a-b"],
    "steps": ["work 0:20; rest 0:10", "work 2:30 3 reps, then rest", "rest"],
    "sets": ["5 at 60%; 3 at 60 kg; 2", "x"],
    "load": ["22.5 kg", "heavier 22.5 kg; lighter 15 kg", "60", "22,5"],
    "tie_break": ["yes", "no", "maybe"],
    "cues": ["halfway off; end on"],
    "amount": ["12", "400 m", "15 cal", "0:30", "4, 8, 12", "many"],
    "reps": ["7"],
}


def values(text: str) -> dict[str, Any]:
    return tomllib.loads(text)


@pytest.mark.parametrize(
    ("key", "typed", "value"),
    [
        ("time", "16:00", "16:00"),
        ("rounds", "3", 3),
        ("tie_break", "yes", True),
        ("scheme", "18-12-6", [18, 12, 6]),
        ("lines", "easy row; arm circles", ["easy row", "arm circles"]),
        (
            "steps",
            "work 0:20 hard; rest 0:10",
            [{"work": "0:20", "label": "hard"}, {"rest": "0:10"}],
        ),
        (
            "sets",
            "5 at 60%; 3 at 62.5 kg",
            [{"reps": 5, "percent": 60}, {"reps": 3, "load": "62.5 kg"}],
        ),
        ("load", "heavier 22.5 kg; lighter 15kg", {"heavier": "22.5 kg", "lighter": "15 kg"}),
        ("cues", "halfway off", {"halfway": False}),
        (
            "options",
            '["lower box", { name = "step-up", reps = 4 }]',
            ["lower box", {"name": "step-up", "reps": 4}],
        ),
        ("title", "[1, 2]", "[1, 2]"),
    ],
)
def test_what_is_typed_becomes_the_value_a_person_would_write(
    key: str, typed: str, value: object
) -> None:
    assert tomllib.loads(f"x = {to_toml(key, typed)}")["x"] == value


@pytest.mark.parametrize(
    ("typed", "key", "value"),
    [
        ("12", "reps", 12),
        ("400 m", "metres", 400),
        ("15 cal", "calories", 15),
        ("0:30", "seconds", 30),
        ("1:30", "seconds", 90),
        ("4, 8, 12", "climb", {"first": 4, "step": 4}),
    ],
)
def test_an_amount_says_by_itself_what_it_is_counted_in(
    typed: str, key: str, value: object
) -> None:
    found = amount_in(typed)
    assert found is not None
    assert found[0] == key
    assert read_value(found[1]) == value
    assert amount_typed(*found) == typed


@given(st.sampled_from(sorted(TYPED)), st.text(max_size=40))
def test_whatever_is_typed_is_a_value_on_one_line(key: str, typed: str) -> None:
    written = to_toml(key, typed.encode("utf-8", "ignore").decode())
    assert "\n" not in written
    tomllib.loads(f"x = {written}")


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_value_of_the_sample_plans_can_be_typed_as_it_is_shown(path: Any) -> None:
    text = path.read_text("utf-8")
    for part in parts_of(text):
        for pair in part.pairs:
            typed = as_typed(pair.key, pair.source)
            assert read_value(to_toml(pair.key, typed)) == read_value(pair.source), typed
        for field in fields_of(part):
            if field.typed:
                again = edits.set_typed(text, part.place, field.key, field.typed)
                assert values(again) == values(text), field


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_parts_of_a_plan_cover_every_line_once(path: Any) -> None:
    text = path.read_text("utf-8")
    parts = parts_of(text)
    assert parts[0].start == 0
    assert parts[-1].end == len(text.split("\n"))
    assert all(one.end == two.start for one, two in pairwise(parts))


def test_a_comment_above_a_heading_moves_with_it_and_one_apart_from_it_stays() -> None:
    moved, place = edits.move(COMMENTED, (1, -1), -1)
    assert place == (0, -1)
    assert moved.index("west rail") < moved.index("chalk is short") < moved.index("the piece")
    assert '# chalk is short\n[[segment]]\nname   = "Warm-up"' in moved
    assert [one["name"] for one in values(moved)["segment"]] == ["Sandbox", "Warm-up"]
    assert edits.move(moved, place, 1) == (COMMENTED, (1, -1))


def test_a_comment_at_the_top_belongs_to_a_segment_right_below_it() -> None:
    head, segment = parts_of('# one\n# two\n[[segment]]\nname = "A"\n')
    assert (head.start, head.end) == (0, 0)
    assert (segment.start, segment.heading) == (0, 2)


def test_a_station_moves_with_its_comments() -> None:
    moved, place = edits.move(COMMENTED, (1, 0), 1)
    assert place == (1, 1)
    assert '  # low boxes first\n  [[segment.station]]\n  movement = "box step-over"' in moved
    assert edits.move(moved, place, -1) == (COMMENTED, (1, 0))


def test_a_value_is_set_in_its_line_and_the_comment_behind_it_stays() -> None:
    changed = edits.set_typed(COMMENTED, (0, -1), "time", "9:00")
    assert changed == COMMENTED.replace('"8:00"   # or nine', '"9:00"   # or nine')


def test_a_new_key_stands_where_a_person_would_write_it_and_in_line_with_the_others() -> None:
    changed = edits.set_typed(COMMENTED, (1, 0), "load", "22.5 kg")
    assert '  reps     = 6\n  load     = "22.5 kg"\n\n' in changed
    dated = edits.set_typed(COMMENTED, HEAD, "date", "2026-03-31")
    assert 'title = "Sandbox Sunday"  # ask Noor\ndate = 2026-03-31\n\n# chalk' in dated


def test_an_amount_of_another_kind_takes_the_place_of_the_old_one() -> None:
    changed = edits.set_typed(COMMENTED, (1, 0), "amount", "400 m")
    assert values(changed)["segment"][1]["station"][0] == {
        "movement": "box step-over",
        "metres": 400,
    }


def test_removing_leaves_the_others_and_one_blank_line_between() -> None:
    assert values(edits.remove(COMMENTED, (1, 1)))["segment"][1]["station"] == [
        {"movement": "box step-over", "reps": 6}
    ]
    left = edits.remove(COMMENTED, (0, -1))
    assert [one["name"] for one in values(left)["segment"]] == ["Sandbox"]


def test_blank_lines_stay_where_they_are_when_a_segment_goes_or_comes() -> None:
    one, two, three = (f'[[segment]]\nname = "{name}"\n' for name in ("A", "B", "C"))
    text = f'title = "T"\n\n{one}\n\n{two}\n{three}'
    assert edits.insert_segment(text, 0, three.strip())[0] == (
        f'title = "T"\n\n{one}\n\n{three}\n{two}\n{three}'
    )
    assert edits.insert_segment(text, 2, one.strip())[0] == f"{text}\n{one}"
    assert edits.remove(text, (0, -1)) == f'title = "T"\n\n{two}\n{three}'
    assert edits.remove(text, (1, -1)) == f'title = "T"\n\n{one}\n\n{three}'
    assert edits.remove(text, (2, -1)) == f'title = "T"\n\n{one}\n\n{two}'


def test_a_copy_of_a_segment_gets_a_name_of_its_own() -> None:
    again, place = edits.duplicate(COMMENTED, (1, -1))
    names = [one["name"] for one in values(again)["segment"]]
    assert (names, place) == (["Warm-up", "Sandbox", "Sandbox 2"], (2, -1))
    assert parse_plan(again, "x")[1] == ()


@pytest.mark.parametrize("written", FORMATS)
def test_a_new_plan_of_each_format_can_be_run_as_it_is(written: str) -> None:
    text = plan_of(written)
    plan, findings = parse_plan(text, "x")
    assert not [one for one in findings if one.level == "error"]
    assert plan is not None
    assert plan.segment[0].format == written
    assert text.endswith("\n")
    assert not text.endswith("\n\n")


def test_a_second_and_a_third_new_segment_have_names_of_their_own() -> None:
    second = frozenset({"rounds"})
    assert 'name = "Rounds 2"' in new_segment("rounds-in-time", second)
    assert 'name = "Rounds 3"' in new_segment("rounds-in-time", second | {"rounds 2"})


def test_a_copy_of_a_plan_has_neither_its_title_nor_its_date() -> None:
    dated = edits.set_typed(COMMENTED, HEAD, "date", "2026-03-31")
    copied = values(copy_of(dated))
    assert copied == {**values(COMMENTED), "title": "New plan"}


def test_a_plan_with_a_fault_in_its_writing_can_be_edited_all_the_same() -> None:
    faulty = COMMENTED.replace('time   = "12:00"', "time   = 12:00")
    draft = Draft(faulty)
    assert draft.reading.plan is None
    assert [finding.line for finding in draft.reading.findings_at((1, -1))] == [18]
    draft.change(edits.set_typed(draft.text, (0, -1), "time", "9:00"))
    assert draft.text == faulty.replace('"8:00"', '"9:00"')


def test_where_there_is_no_such_part_it_is_the_head_that_is_shown() -> None:
    reading = Draft(COMMENTED).reading
    assert reading.part((1, 1)).place == (1, 1)
    assert reading.part((7, 3)).place == HEAD
    assert reading.findings_at((7, 3)) == ()


def test_a_draft_says_whether_an_edit_changed_it_and_whether_there_was_one_to_take_back() -> None:
    draft = Draft(COMMENTED)
    assert not draft.changed
    assert draft.change(COMMENTED) is False
    assert draft.take_back() is False
    assert draft.change(edits.set_typed(COMMENTED, HEAD, "title", "Monday"), (1, 0)) is True
    assert draft.changed
    assert draft.place == (1, 0)
    assert draft.take_back() is True
    assert (draft.text, draft.place, draft.changed) == (COMMENTED, HEAD, False)


def test_the_sum_stands_though_one_segment_has_a_fault() -> None:
    draft = Draft(COMMENTED)
    assert draft.reading.length_ms == (8 * 60 + 12 * 60 + 20) * 1000
    draft.change(edits.set_typed(draft.text, (1, -1), "time", "long"))
    assert not draft.reading.whole
    assert draft.reading.length_ms == (8 * 60 + 10) * 1000


ACTIONS = st.lists(
    st.tuples(
        st.sampled_from(
            ["set", "set", "set", "segment", "station", "remove", "up", "down", "again", "format"]
        ),
        st.integers(0, 40),
        st.integers(0, 40),
    ),
    max_size=12,
)


def act(draft: Draft, action: str, first: int, second: int) -> None:
    places = [part.place for part in draft.reading.parts]
    place = places[first % len(places)]
    text = draft.text
    if action == "set":
        key = sorted(TYPED)[second % len(TYPED)]
        typed = TYPED[key][first % len(TYPED[key])]
        draft.change(edits.set_typed(text, place, key, typed))
    elif action == "segment":
        block = new_segment(sorted(FORMATS)[second % len(FORMATS)])
        draft.change(*edits.insert_segment(text, place[0], block))
    elif action == "station" and place != HEAD:
        draft.change(*edits.insert_station(text, place, 'row "fast"', "400 m"))
    elif action == "remove" and place != HEAD:
        draft.change(edits.remove(text, place))
    elif action in ("up", "down") and place != HEAD:
        draft.change(*edits.move(text, place, -1 if action == "up" else 1))
    elif action == "again" and place != HEAD:
        draft.change(*edits.duplicate(text, place))


BEGINNINGS = ["", "\n", "# mine\n", 'title = "A"', COMMENTED, *(p.read_text() for p in SAMPLES)]


@given(st.sampled_from(BEGINNINGS), ACTIONS)
def test_after_any_edits_the_text_can_be_read_and_all_can_be_taken_back(
    text: str, actions: list[tuple[str, int, int]]
) -> None:
    draft = Draft(text)
    for action in actions:
        act(draft, *action)
        tomllib.loads(draft.text)
        assert len(parts_of(draft.text)) == 1 + sum(
            1 + len(one.get("station", [])) for one in values(draft.text).get("segment", [])
        )
    while draft.take_back():
        pass
    assert draft.text == text


@given(st.integers(0, 40), st.integers(0, 40))
def test_an_edit_touches_no_line_of_another_part(first: int, second: int) -> None:
    draft = Draft(COMMENTED)
    places = [part.place for part in draft.reading.parts]
    place = places[first % len(places)]
    key = sorted(TYPED)[second % len(TYPED)]
    draft.change(edits.set_typed(COMMENTED, place, key, TYPED[key][0]))
    assert _others(draft.text, place) == _others(COMMENTED, place)


def _others(text: str, place: tuple[int, int]) -> list[str]:
    lines = text.split("\n")
    return [
        "\n".join(lines[part.start : part.end]) for part in parts_of(text) if part.place != place
    ]
