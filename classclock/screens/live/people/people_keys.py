"""The keys of the list of who is here, for the help."""

from classclock.screens.people.marks import MARKS
from classclock.screens.people.people_returns import LESS
from classclock.tally.keys.key_help import KeyLine

PEOPLE_KEYS: tuple[KeyLine, ...] = (
    KeyLine("class", "n", "light N; up, down, page up and page down go through the list"),
    KeyLine("class", "space", "has left: no lane from here on; once more: is back"),
    KeyLine("class", "+", "add somebody, or find them by name: type it, then enter"),
    KeyLine("class", "1 to 9", "this option in the piece to come, or no longer"),
    KeyLine("class", "0", "as written in the piece to come"),
    KeyLine("class", "ctrl+o", "the next nine options"),
    KeyLine("class", "tab", "the next load that the plan offers; in a lift a load to type"),
    KeyLine("class", "=", "in a lift a load to type: 82.5, or 3:82.5 for the third set"),
    KeyLine("class", "ctrl+e", "another name"),
    KeyLine("class", "ctrl+k", "another key"),
    KeyLine("class", "> n", "change places with N, as partners or in teams"),
    *(
        KeyLine("class", f"F7, then {digit}", f"the mark {mark}, or no longer")
        for digit, mark in enumerate(MARKS, start=1)
    ),
    KeyLine("class", f"F7, then {LESS}", "back after weeks: less of what is to come, or all of it"),
    KeyLine("class", "escape", "close the list"),
)
