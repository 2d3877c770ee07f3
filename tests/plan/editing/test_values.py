"""A value of the file as it is shown to be typed: in the short form where that means the same."""

import pytest

from classclock.plan.editing.values import as_typed, read_value, to_toml


@pytest.mark.parametrize(
    ("key", "source", "typed"),
    [
        ("tie_break", "true", "yes"),
        ("lines", '["easy row",\n  "arm circles"]', "easy row; arm circles"),
        ("scheme", "[18, 12, 6]", "18-12-6"),
        ("steps", '[{ work = "0:20" },\n{ rest = "0:10" }]', "work 0:20; rest 0:10"),
        ("sets", "[{ reps = 5, percent = 60 }, { reps = 3 }]", "5 at 60%; 3"),
        ("load", '{ heavier = "22.5 kg", lighter = "15 kg" }', "heavier 22.5 kg; lighter 15 kg"),
        ("cues", "{ halfway = false, end = true }", "halfway off; end on"),
    ],
)
def test_a_value_is_shown_in_the_short_form_that_means_it(
    key: str, source: str, typed: str
) -> None:
    assert as_typed(key, source) == typed
    assert read_value(to_toml(key, typed)) == read_value(source)


def test_what_has_no_short_form_is_shown_as_the_file_has_it_on_one_line() -> None:
    step = '{ work = "1:00", stations = ["row"] }'
    assert as_typed("steps", f"[{step}]") == f"[{step}]"
    assert as_typed("steps", f"[\n  {step},  # hard\n]") == f"[{step}]"


def test_what_cannot_be_read_is_shown_as_it_stands() -> None:
    assert as_typed("lines", '["easy row",\n') == '["easy row",\n'
