"""Loads and lengths beside a score, as people write them."""

import pytest

from tests.book.importing.read_sheets import HEAD, asked, reading


@pytest.mark.parametrize("written", ["15", "15kg", "15,0 kg", "15.0", "15 KG"])
def test_loads_and_lengths_are_kept_as_classes_keep_them(written: str) -> None:
    head = f"{HEAD};load;work".replace(",", ";")
    row = f"Ilse;Turntable;7+1;2024-03-01;{written};600"
    done = reading(row, head=head)
    assert (done.rows[0].loads, done.rows[0].work) == ("15 kg", "10:00")


def test_a_short_bare_length_may_be_minutes() -> None:
    head, row = f"{HEAD},work", "Ilse,Turntable,7+1,2024-03-01,16"
    assert asked(reading(row, head=head)) == {"lengths": ("minutes", "seconds", "leave-out")}
    assert reading(row, head=head, answers={"lengths": "minutes"}).rows[0].work == "16:00"
    assert reading(row, head=f"{HEAD},cap (min)").rows[0].work == "16:00"


@pytest.mark.parametrize(
    ("more", "said"),
    [("heavy,", 'Write "22.5 kg"'), (",long", "Write how long it was, as in 16:00")],
)
def test_terms_that_cant_be_read_are_findings(more: str, said: str) -> None:
    done = reading(f"Ilse,Turntable,7+1,2024-03-01,{more}", head=f"{HEAD},load,work")
    assert said in str(done.findings[0])
