"""The keys that only a class's screen knows, beside those of the key language."""

from classclock.tally.keys.key_help import KeyLine

SCREEN_KEYS: tuple[KeyLine, ...] = (
    KeyLine(
        "putting right",
        "F9",
        "correct the selected score, with a reason",
        ("rounds", "intervals", "reps", "load"),
        ("over",),
    ),
    KeyLine("clock", "left, right", "after a restart: set the clock by a second", (), ("held",)),
    KeyLine(
        "class",
        "left, right",
        "scores on several pages: another one; no page turns by itself any more",
        phases=("over", "last"),
    ),
    KeyLine("class", "space", "scores on several pages: this one stays", phases=("over", "last")),
    KeyLine("class", "tab, shift+tab", "teach one movement after the other", phases=("board",)),
    KeyLine("class", "tab", "on the emergency card: fill in what it lacks", phases=("board",)),
    KeyLine("class", "left, right", "turn the pages of many loads", ("load",), ("board",)),
    KeyLine("class", "ctrl+t", "partners, teams, and what is short", phases=("board",)),
    KeyLine("class", "ctrl+f", "fit the class to the clock", phases=("board",)),
    KeyLine("class", "ctrl+g", "go: a clock without a plan", phases=("board",)),
    KeyLine("class", "ctrl+l", "the wall as a page: its address, and a code to point a phone at"),
    KeyLine("class", "F10", "with ctrl+l open: let in the screen that shows these digits"),
    KeyLine("class", "F3", "sound check", phases=("board",)),
    KeyLine("class", "F4", "sound off, and on again"),
    KeyLine("class", "F5, F6", "softer, louder"),
    KeyLine("class", "F7", "the loads that are to be looked at", ("load",), ("board",)),
    KeyLine("class", "F8", "while a file can't be saved: save in another place"),
)
