"""A terminal's key event as the signs of the key language."""

_NAMES = {
    "ctrl+h": "backspace",  # what the backspace key sends in some terminals
    "ctrl+m": "enter",
    "ctrl+j": "enter",
    "ctrl+enter": "enter",
    "shift+enter": "enter",
    "shift+space": "space",
}


def signs_of(key: str, character: str | None) -> tuple[str, ...]:
    """What was typed: printable signs as they are, other keys by name, as in `<enter>`.

    The character counts, not the key's name, so that a keypad's digits are digits. Escape and a
    letter that reach the terminal in one read come as `alt+n`: escape, then the letter.
    """
    if key.startswith("alt+"):
        rest = key.removeprefix("alt+").removeprefix("shift+")
        return ("<escape>", *signs_of(rest, character))
    if character == " ":
        return ("<space>",)
    if character is not None and len(character) == 1 and character.isprintable():
        return (character,)
    return (f"<{_NAMES.get(key, key)}>",)
