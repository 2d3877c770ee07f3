"""News of a month, beside the plainest way to find them: one result after the other."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.book.tables.queries import Athlete
from classclock.records.bests import best_of
from classclock.records.result import Result, Terms
from classclock.report.month.news import Done, Happened, first_times, new_bests

ILSE = Athlete("ilse", "Ilse", "i", (), 3, "2026-01-05", "2026-11-24")
WORTHS = st.lists(st.integers(1, 9), max_size=8)


def did(worths: list[int], month: int) -> tuple[Result, ...]:
    """A result a day, as many reps as it is worth."""
    return tuple(
        Result(
            athlete="ilse",
            piece="Last tram",
            benchmark="last tram",
            day=f"2026-{month:02}-{day:02}",
            moment=month * 100 + day,
            score=f"{worth} reps",
            kind="reps",
            worth=worth,
            total_reps=worth,
            terms=Terms(),
        )
        for day, worth in enumerate(worths, start=1)
    )


def happened(october: tuple[Result, ...], november: tuple[Result, ...]) -> Happened:
    best = best_of(october)
    done = Done((best,) if best else (), november)
    return Happened((ILSE,), frozenset(), {"ilse": {"last tram": done}} if november else {})


@given(WORTHS, WORTHS)
def test_the_last_one_that_outdid_all_before_it_is_the_best_of_the_month(
    before: list[int], now: list[int]
) -> None:
    october, november = did(before, 10), did(now, 11)
    most, last = max(before, default=0), None
    for one in november:
        worth = one.worth or 0
        if most and worth > most:
            last = one
        most = max(most, worth)
    told = list(new_bests(happened(october, november)))
    assert [one.result for one in told] == ([last] if last else [])
    if last is not None:
        # Beside what stood when the month began; the first of the month where nothing did.
        stood = max(before) if before else now[0]
        standing = told[0].standing
        assert standing is not None
        assert standing.before is not None
        assert standing.before.worth == stood
        assert standing.by == ("1 rep" if most == stood + 1 else f"{most - stood} reps")


@given(WORTHS, WORTHS)
def test_the_first_time_is_told_once_and_only_where_there_was_none_before(
    before: list[int], now: list[int]
) -> None:
    told = [one.result for one in first_times(happened(did(before, 10), did(now, 11)))]
    assert told == ([did(now, 11)[0]] if now and not before else [])
