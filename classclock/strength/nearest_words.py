"""What is said of a load that no bar of the club makes."""

from classclock.strength.bar_loading import load_any_bar
from classclock.strength.bar_picture import lighter_words
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load, shown


def nearest_words(load: Load, equipment: Equipment) -> str:
    """`82 kg can't be made with the club's plates: 81 kg or 82.5 kg can`; empty where it can."""
    if not equipment.bars:
        return ""
    answer = load_any_bar(load, equipment)
    if answer.exact is not None:
        return ""
    if answer.lighter is not None:
        return lighter_words(load, answer.lighter)
    near = [shown(one.total) for one in (answer.below, answer.above) if one is not None]
    return f"{load} can't be made with the club's plates: {' or '.join(near)} can"
