"""Who may try the next option: words for the coach alone, and what they don't say."""

from collections.abc import Iterator, Sequence

from classclock.plan.station import Station
from classclock.planning.next_steps import FAR, LIKE, NextStep
from classclock.units.printable import printable

BASIS = (
    f"Held against the middle score of those classes: like the others' is {100 * LIKE:.0f} % of it "
    f"or more, far behind less than {100 * FAR:.0f} %. Common practice, no source."
)
NOT_SAID = "No score says how somebody moves, nor what hurts: look, ask, then decide."
_MANY = ("three", "four", "five", "six", "seven", "eight", "nine", "ten")
_TIMES = ("", "once", "twice", *(f"{number} times" for number in _MANY))


def step_words(station: Station, step: NextStep) -> str:
    """`step-up six times: lower box next?`, `lower box far behind twice: step-up instead?`."""
    times = _TIMES[step.times] if step.times < len(_TIMES) else f"{step.times} times"
    behind = "" if step.up else "far behind "
    return f"{_name(station, step.option)} {behind}{times}: {step_asked(station, step)}"


def step_asked(station: Station, step: NextStep) -> str:
    """`lower box next?`, `step-up instead?`."""
    return f"{_name(station, step.to)} {'next' if step.up else 'instead'}?"


def step_lines(name: str, steps: Sequence[str]) -> Iterator[str]:
    """All there is to say of one of them, whose steps these are."""
    yield f"{printable(name)}: {'; '.join(steps)}"
    yield BASIS
    yield NOT_SAID


def _name(station: Station, option: int) -> str:
    return printable(station.options[option - 1].name) if option else "as written"
