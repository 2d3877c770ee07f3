"""Numbers are written with the digits 0 to 9: one rule, wherever one is typed.

Other scripts' digits look like letters to who doesn't read them, and a font for the wall may lack
them: they are refused, in words.
"""


def is_whole(text: str) -> bool:
    """Whether it is a whole number in these digits, without a sign."""
    return text.isascii() and text.isdecimal()


def has_other_digits(text: str) -> bool:
    """Whether it holds digits of another script."""
    return any(sign.isdecimal() and not sign.isascii() for sign in text)
