"""What every format must have: a new one that leaves a part of it out fails here."""

import importlib
import pkgutil
import tomllib
from itertools import pairwise
from typing import Any

import pytest

from classclock.clock.cues import STEP
from classclock.plan import formats
from classclock.plan.editing.edits import remove_key, set_typed
from classclock.plan.editing.starts import plan_of
from classclock.plan.editing.values import as_typed, read_value, to_toml
from classclock.plan.formats.segment_base import SegmentBase
from classclock.plan.formats.timelines import length, timeline
from classclock.plan.keys import KEYS, choices
from classclock.plan.model import FORMATS, Segment, is_piece
from classclock.plan.outline import outline
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.reading.schema import plan_schema

every_format = pytest.mark.parametrize("form", FORMATS)
HOUR_MS = 3_600_000


def starter(form: str) -> Segment:
    plan, findings = parse_plan(plan_of(form), "depot.toml")
    assert plan is not None, [str(one) for one in findings]
    return plan.segment[0]


def own_fields(form: str) -> set[str]:
    return set(FORMATS[form].model_fields) - set(SegmentBase.model_fields) - {"format"}


@every_format
def test_a_new_segment_can_be_run_and_says_what_it_is(form: str) -> None:
    segment, about = starter(form), FORMATS[form].about
    assert segment.format == form
    assert segment.name == about.called
    assert segment.described().startswith(segment.headline())
    assert segment.headline()
    assert segment.described().endswith(segment.terms())
    assert all((about.offered_as, about.begins_with))
    timed, untimed = about.reported
    assert "{time}" in timed
    assert "{time}" not in untimed


@every_format
def test_the_editor_has_a_field_for_each_of_its_keys(form: str) -> None:
    about = FORMATS[form].about
    assert set(about.fields) == own_fields(form)
    assert len(about.fields) == len(own_fields(form))
    for key in about.fields:
        assert key in KEYS, f"{key} has no words: put them into about.keys"
        assert KEYS[key].hint, f"the editor has nothing to say beside {key}: give its Key a hint"


def test_every_key_of_a_plan_has_its_words_and_none_has_two() -> None:
    schema = plan_schema()
    tables: dict[str, Any] = {"Plan": schema, **schema["$defs"]}
    written = {
        key
        for name, table in tables.items()
        if name != "Cues"
        for key in table.get("properties", ())
    }
    assert written == KEYS.keys()
    for form in FORMATS.values():
        for key, words in form.about.keys.items():
            assert KEYS[key] is words, f"{key} has other words in another format"


@pytest.mark.parametrize("key", KEYS)
def test_the_example_of_a_key_can_be_typed_as_the_editor_shows_it(key: str) -> None:
    example = KEYS[key].example
    if not example.startswith("[["):
        typed = as_typed(key, example)
        assert read_value(example) is not None
        assert repr(read_value(to_toml(key, typed))) == repr(read_value(example))


@every_format
def test_its_clock_runs_from_go_without_a_gap(form: str) -> None:
    segment = starter(form)
    spans = segment.spans()
    assert spans[0].start == 0
    assert all(before.end == after.start for before, after in pairwise(spans))
    assert all(span.end > span.start for span in spans)
    assert length(segment) == timeline(segment).total == outline_length(form)
    numbers = [span.number for span in spans if span.kind == "work"]
    assert numbers == list(range(1, timeline(segment).steps + 1))


def outline_length(form: str) -> int:
    plan, _ = parse_plan(plan_of(form), "depot.toml")
    assert plan is not None
    return outline(plan).total_ms


@every_format
def test_its_length_can_be_changed_unless_its_steps_say_it(form: str) -> None:
    segment, about = starter(form), FORMATS[form].about
    if about.in_steps:
        assert about.length_key is None
        assert STEP in about.cues, "its changes of step are heard"
        assert not about.minutes_can_change
        with pytest.raises(ValueError, match=segment.name):
            segment.spans(HOUR_MS)
    else:
        assert about.length_key in about.fields
        assert segment.spans(HOUR_MS)[-1].end == HOUR_MS


@every_format
def test_it_can_be_made_shorter_for_the_clock_and_is_counted_as_before(form: str) -> None:
    segment = starter(form)
    ways = segment.ways_shorter()
    lengths = [length(segment.fitted(way)) for way in ways]
    assert ways
    assert lengths == sorted(lengths, reverse=True)
    assert max(lengths) < length(segment)
    for way in ways:
        fitted = segment.fitted(way)
        assert fitted.counting == segment.counting
        assert fitted.total_reps == segment.total_reps


@every_format
def test_what_holds_for_the_format_holds_for_its_segment(form: str) -> None:
    segment, about = starter(form), FORMATS[form].about
    assert about.has_rounds == (segment.counting.counts_by == "rounds")
    assert (about.rounds == "set") == segment.counting.can_finish
    assert (segment.total_reps is not None) == segment.counting.can_finish
    assert is_piece(segment) == about.has_rounds
    assert not (about.has_rounds and "score" in about.fields), "rounds are a score by themselves"


@pytest.mark.parametrize(
    ("form", "score"), [(form, score) for form in FORMATS for score in choices(form, "score")]
)
def test_every_way_to_score_counts_something_and_is_said(form: str, score: str) -> None:
    text = set_typed(plan_of(form), (0, -1), "score", score)
    plan, findings = parse_plan(text, "depot.toml")
    assert findings == ()
    assert plan is not None
    assert is_piece(plan.segment[0])
    assert plan.segment[0].described() != starter(form).described()


@every_format
def test_a_plan_that_leaves_the_format_out_is_answered_with_it(form: str) -> None:
    about = FORMATS[form].about
    others = {key for name in FORMATS if name != form for key in FORMATS[name].model_fields}
    assert about.known_by <= set(about.fields) - others
    text = plan_of(form)
    if set(tomllib.loads(text)["segment"][0]) - others:
        _, findings = parse_plan(remove_key(text, (0, -1), "format"), "depot.toml")
        assert findings[0].instead == f'Write format = "{form}"'


def test_only_a_countdown_gets_minutes_as_the_help_of_the_keys_says() -> None:
    assert [name for name, form in FORMATS.items() if form.about.minutes_can_change] == [
        "countdown"
    ]


def test_no_format_is_left_out_of_the_list() -> None:
    for module in pkgutil.iter_modules(formats.__path__, f"{formats.__name__}."):
        importlib.import_module(module.name)
    assert set(SegmentBase.__subclasses__()) == set(FORMATS.values())
