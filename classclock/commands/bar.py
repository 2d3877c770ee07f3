"""`bar`: which plates go on the bar, as a picture or JSON."""

import argparse
from typing import Any

from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, BadUseError
from classclock.commands.shared.load_values import lighter_values, load_values, loading_values
from classclock.commands.shared.options import add_club, add_json, add_unit
from classclock.commands.shared.printing import print_json
from classclock.machine.standard_streams import say
from classclock.strength.bar_loading import BarAnswer, Loading, load_any_bar, load_bar
from classclock.strength.bar_picture import lighter_words, side_picture, side_words
from classclock.units.loads import Unit, both_units, parse_load


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    add_unit(parser)
    parser.add_argument("total", help="what the bar is to weigh in all: 82.5, or 185lb")
    parser.add_argument("--bar", metavar="NAME", help="on this bar; the nearest fit unless named")


def do(asked: argparse.Namespace) -> int:
    """Which plates make this total; where none do, the nearest below and above.

    A unit that is named is that of a bare total, and of what is said besides.
    """
    _, club = asked_club(asked)
    equipment = club.equipment
    try:
        target = parse_load(asked.total, asked.unit or club.unit)
        chosen = equipment.bar_named(asked.bar) if asked.bar is not None else None
    except (LookupError, ValueError) as error:
        raise BadUseError(error.args[0]) from None
    answer = load_bar(target, chosen, equipment) if chosen else load_any_bar(target, equipment)
    if asked.json:
        print_json(_values(answer))
    else:
        say(*_lines(answer, asked.unit or target.unit))
    return OK if answer.exact is not None else FINDINGS


def _lines(answer: BarAnswer, unit: Unit) -> list[str]:
    if answer.exact is not None:
        return _loading_lines(answer.exact, unit)
    if answer.lighter is not None:
        return [lighter_words(answer.target, answer.lighter)]
    lines = [f"{answer.target} can't be made with the club's plates."]
    for word, loading in (("below", answer.below), ("above", answer.above)):
        if loading is None:
            lines += ["", f"Nothing {word} it: the club has no more plates."]
        else:
            lines += ["", f"The nearest {word}:", *_loading_lines(loading, unit)]
    return lines


def _loading_lines(loading: Loading, unit: Unit) -> list[str]:
    total = both_units(loading.total, unit)
    return [f"{total} on the {loading.bar.name}: {side_words(loading)}", "", *side_picture(loading)]


def _values(answer: BarAnswer) -> dict[str, Any]:
    return {
        "target": load_values(answer.target),
        "exact": loading_values(answer.exact),
        "below": loading_values(answer.below),
        "above": loading_values(answer.above),
        "lighter": lighter_values(answer.lighter),
    }
