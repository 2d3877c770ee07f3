"""The command `bar`: which plates go on the bar, as a picture or JSON."""

from typing import Any

from classclock.commands.headless import BAD_USE, FINDINGS, OK, print_json, say_wrong
from classclock.strength.bar_loading import BarAnswer, Lighter, Loading, load_any_bar, load_bar
from classclock.strength.bar_picture import lighter_words, side_picture, side_words
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load, Unit, both_units, parse_load, shown


def bar(
    total: str,
    equipment: Equipment,
    *,
    club_unit: Unit,
    show_in: Unit | None,
    bar_name: str | None,
    as_json: bool,
) -> int:
    """Which plates make this total; where none do, the nearest below and above.

    `show_in` is the unit asked for: of a bare total, and of what is said besides.
    """
    try:
        target = parse_load(total, show_in or club_unit)
        chosen = equipment.bar_named(bar_name) if bar_name is not None else None
    except (LookupError, ValueError) as error:
        say_wrong(str(error.args[0]))
        return BAD_USE
    answer = load_bar(target, chosen, equipment) if chosen else load_any_bar(target, equipment)
    if as_json:
        print_json(_bar_document(answer))
    else:
        print("\n".join(_bar_lines(answer, show_in or target.unit)))
    return OK if answer.exact is not None else FINDINGS


def _bar_lines(answer: BarAnswer, unit: Unit) -> list[str]:
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


def _bar_document(answer: BarAnswer) -> dict[str, Any]:
    return {
        "target": load_document(answer.target),
        "exact": loading_document(answer.exact),
        "below": loading_document(answer.below),
        "above": loading_document(answer.above),
        "lighter": lighter_document(answer.lighter),
    }


def loading_document(loading: Loading | None) -> dict[str, Any] | None:
    if loading is None:
        return None
    return {
        **load_document(loading.total),
        "bar": loading.bar.name,
        "side": [str(plate) for plate in loading.plates],
        "collar": str(loading.collar) if loading.collar is not None else None,
    }


def lighter_document(lighter: Lighter | None) -> dict[str, Any] | None:
    if lighter is None:
        return None
    loads = {
        "kettlebell": lighter.kettlebell,
        "dumbbell": lighter.dumbbell,
        "two_dumbbells": lighter.two_dumbbells,
    }
    named = {name: str(load) if load is not None else None for name, load in loads.items()}
    return {"bar": lighter.bar.name if lighter.bar is not None else None, **named}


def load_document(load: Load) -> dict[str, Any]:
    return {"load": shown(load), "kg": float(load.kg)}
