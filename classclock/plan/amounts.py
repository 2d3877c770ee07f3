"""What a station is worth in one round, in reps: the arithmetic that every tally stands on."""

from classclock.plan.station import Amount, Option, Station
from classclock.plan.value_types import LoadChoice
from classclock.units.loads import Load

AMOUNTS = ("reps", "metres", "calories", "seconds", "climb")
"""The keys that say how much of a movement; a station or an option has one of them at most."""


def rep_words(reps: int) -> str:
    """`1 rep`, `12 reps`."""
    return "1 rep" if reps == 1 else f"{reps} reps"


def names_amount(written: Amount) -> bool:
    return any(getattr(written, key) is not None for key in AMOUNTS)


def amount_of(station: Station, option: Option | None) -> Amount:
    """The amount that is done: the option's own, else the station's."""
    return option if option is not None and names_amount(option) else station


def load_of(station: Station, option: Option | None) -> LoadChoice | None:
    """The load that the plan gives: the option's own, else the station's if the option keeps it."""
    if option is None or (option.load is None and option.keep_load):
        return station.load
    return option.load


def chosen_load(choice: LoadChoice | None, name: str | None) -> Load | None:
    """One load for all, or one's own among several by its name; None where none is named."""
    if isinstance(choice, dict):
        return choice.get(name) if name is not None else None
    return choice


def worth(
    station: Station, option: Option | None, round_index: int, scheme: tuple[int, ...] | None
) -> int:
    """What the station counts in the round with this index, the first being 0.

    Reps, calories and a climb count as they stand, metres and seconds nothing; `counts` beside them
    stands above that. So an option's own `counts` or own reps come before what the station says,
    and what an option leaves out stays as the station has it. A station that names no amount takes
    the scheme's, and nothing past the scheme's end.
    """
    if option is not None and (own := _says(option, round_index)) is not None:
        return own
    if station.counts is not None:
        return station.counts
    amount = amount_of(station, option)
    if not names_amount(amount):
        return scheme[round_index] if scheme is not None and round_index < len(scheme) else 0
    return _says(amount, round_index) or 0


def _says(written: Amount, round_index: int) -> int | None:
    """What these keys alone count; None where they don't say, as metres and seconds don't."""
    if written.counts is not None:
        return written.counts
    if written.climb is not None:
        return written.climb.first + written.climb.step * round_index
    return written.reps if written.reps is not None else written.calories
