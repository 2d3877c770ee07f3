"""What the first run asks, in words."""

from classclock.screens.controls.page_question import PageQuestion
from classclock.screens.pages.first_run.first_run_desk import FirstRunDesk
from classclock.tally.keys.keyboard_row import DIGIT_KEYS
from classclock.wall.emergency_words import lacks


def asked(desk: FirstRunDesk) -> PageQuestion:
    """The open question, in words."""
    match desk.question:
        case "unit":
            return PageQuestion(
                "Kilograms or pounds?",
                "Loads written without a unit are in it, and so are the bars and plates.",
                "k: kilograms, l: pounds",
            )
        case "six":
            return PageQuestion(
                "Press 6, without shift.",
                "Numbers are typed fast in a class. On some keyboards they need shift.",
                "backspace: back",
            )
        case "offer":
            return PageQuestion(
                "Digits need shift here.",
                "classclock can take the row for digits without it.",
                "enter: yes, map the row, space: no, backspace: back",
            )
        case "row":
            return PageQuestion(
                f"Press {DIGIT_KEYS[len(desk.row)]}, without shift.",
                f"The keys of the digit row, one after the other. So far: {desk.row}",
                "backspace: the last one again",
            )
        case "point":
            return PageQuestion(
                "Press . without shift.",
                "For a decimal, and for somebody who stops.",
                "a key that means it from now on, backspace: back",
            )
        case "minus":
            return PageQuestion(
                "Press - without shift.",
                "It takes back what was counted.",
                "a key that means it from now on, backspace: back",
            )
        case "card":
            return desk.card.asked(last="goes on, on an empty line too")
        case "done":
            return PageQuestion("Write club.toml?", _summary(desk), "enter: write, backspace: back")


def _summary(desk: FirstRunDesk) -> str:
    unit = {"kg": "kilograms", "lb": "pounds"}[desk.unit]
    keys = ", ".join(f"{sign} means {meant}" for sign, meant in desk.keyboard.items())
    said = f"Loads in {unit}; {keys or 'the keyboard as it is'}."
    short = lacks(desk.card.card)
    return f"{said} {short.capitalize()}: F2 at home asks again." if short else said
