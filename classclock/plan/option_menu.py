"""The options of a segment by number, as they are called and shown everywhere."""

from classclock.plan.model import Segment
from classclock.plan.station import Station

MOST_OF_ONE_DIGIT = 9
"""Where there are more options, each is called with two digits."""


def option_menu(segment: Segment) -> tuple[tuple[int, int], ...]:
    """Station (from 0) and option of it (from 1) of each number, from 1.

    What the plan lists comes first, in reading order; what the movements' library adds comes after
    it, so that a number means the same whatever `movements.toml` holds.
    """
    every = [
        (option.from_library, place, number)
        for place, station in enumerate(segment.station)
        for number, option in enumerate(station.options, start=1)
    ]
    return tuple((place, number) for _, place, number in sorted(every))


def nearest_first(station: Station) -> tuple[int, ...]:
    """The numbers of a station's options (from 1), from the nearest to as written to the farthest.

    That is the order in which the plan lists them, unless they say their `order`; those that the
    library adds come after, and there the easiest stands first.
    """

    def place(number: int) -> tuple[bool, int, bool, int]:
        option = station.options[number - 1]
        written = -number if option.from_library else number
        return option.order is None, option.order or 0, option.from_library, written

    return tuple(sorted(range(1, len(station.options) + 1), key=place))


def option_words(segment: Segment) -> str:
    """What there is to call: `the options here are 1 lower box, 2 step-up, and 0 as written`."""
    menu = option_menu(segment)
    if not menu:
        return "the plan has no options for this piece"
    named = [
        f"{number_words(number, len(menu))} {segment.station[place].options[option - 1].name}"
        for number, (place, option) in enumerate(menu, start=1)
    ]
    written = number_words(0, len(menu))
    return f"the options here are {', '.join(named)}, and {written} as written"


def number_words(number: int, options: int) -> str:
    """The number of an option as it is typed among so many: `2`, or `02` where there are more."""
    return f"{number:02}" if options > MOST_OF_ONE_DIGIT else str(number)
