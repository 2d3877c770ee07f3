"""Terms are one however they are written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.records.result import Terms
from classclock.records.written_terms import NOT_SAID, terms_key, tidy_loads, tidy_work


@pytest.mark.parametrize("written", ["15", "15kg", "15 kg", "15,0 kg", "15.0 KG", " 15.000kg "])
def test_a_load_has_one_spelling(written: str) -> None:
    assert tidy_loads(written, "kg") == "15 kg"


def test_loads_of_several_stations_and_of_two_units() -> None:
    assert tidy_loads("22,5/50lb", "kg") == "22.5 kg / 50 lb"
    assert tidy_loads("45", "lb") == "45 lb"
    assert tidy_loads("", "kg") == ""
    assert tidy_loads(NOT_SAID, "kg") == NOT_SAID


@pytest.mark.parametrize("written", ["600", "10:00", "10 min", "10'", "PT10M", "600 s", "0:10:00"])
def test_a_length_has_one_spelling(written: str) -> None:
    assert tidy_work(written, of_a_set=False) == "10:00"


@pytest.mark.parametrize("written", ["3", "3 reps", "3x", "3 Reps"])
def test_the_reps_of_a_set_have_one_spelling(written: str) -> None:
    assert tidy_work(written, of_a_set=True) == "3 reps"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (Terms("Step-up", "15kg", "600"), Terms("step-up", "15,0 kg", "10:00")),
        (Terms("R\u00fcckw\u00e4rts"), Terms("ru\u0308ckwa\u0308rts")),
        (Terms("lower  box", "22.5 kg / 15 kg"), Terms("lower box", "22,5kg/15kg")),
    ],
)
def test_terms_are_compared_however_they_are_written(one: Terms, other: Terms) -> None:
    assert one.key == other.key
    assert one.equal(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (Terms(loads="15 kg"), Terms(loads="15 lb")),
        (Terms(loads="15"), Terms(loads="15 kg")),  # nobody said in which unit
        (Terms(work="10:00"), Terms(work="16:00")),
        (Terms("step-up"), Terms("lower box")),
        (Terms("r\u00f6deln"), Terms("rodeln")),
        (Terms(team=2), Terms()),
    ],
)
def test_others_arent(one: Terms, other: Terms) -> None:
    assert one.key != other.key
    assert not one.equal(other)


def test_what_nobody_said_is_taken_to_be_the_same() -> None:
    assert Terms(loads=NOT_SAID, work=NOT_SAID).equal(Terms(loads="15 kg", work="600"))
    assert Terms(loads=NOT_SAID).key != Terms(loads="15 kg").key


@given(st.text(max_size=9), st.text(max_size=9), st.text(max_size=9))
def test_whatever_a_file_says_has_a_key_and_equals_itself(
    modification: str, loads: str, work: str
) -> None:
    assert terms_key(modification, loads, work, 1)
    assert Terms(modification, loads, work).equal(Terms(modification, loads, work))


@given(
    st.sampled_from(["15", "15kg", "2,5 lb", "7 kg / 8", "", "?"]), st.sampled_from(["kg", "lb"])
)
def test_what_is_tidy_stays_so(written: str, unit: str) -> None:
    once = tidy_loads(written, "lb" if unit == "lb" else "kg")
    assert tidy_loads(once, "kg") == once
