"""The tricks that are asked for, by name."""

from collections.abc import Collection

from benchmarks.tricks.switches import SWITCHES

ALL = (*SWITCHES, "imports:", "kept:")
EACH = "each"
"""`imports:each` and `kept:each` try one member after the other."""


def chosen(words: Collection[str], modules: Collection[str], kept: Collection[str]) -> list[str]:
    """The tricks whose names have these words; all of them where there is none.

    `modules` have imports within functions, `kept` is the names of what is kept.

    Raises:
        ValueError: there is no such trick.
    """
    found: list[str] = []
    for word in words or ALL:
        tricks = _meant(word, modules, kept)
        if not tricks:
            raise ValueError(f"{word}: no such trick; --list names them, --count what is kept")
        found += tricks
    return found


def _meant(word: str, modules: Collection[str], kept: Collection[str]) -> list[str]:
    kind, colon, name = word.partition(":")
    if not colon:
        return [one for one in ALL if word in one]
    members = {"imports": modules, "kept": kept}.get(kind, ())
    if name == EACH:
        rooms = {module.partition(".")[0] for module in members}
        return [f"{kind}:{one}" for one in (sorted(rooms) if kind == "imports" else members)]
    return [word] if word in ALL or any(one.startswith(name) for one in members) else []
