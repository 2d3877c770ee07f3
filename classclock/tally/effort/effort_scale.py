"""What the numbers of an effort mean, in words of our own: only three of them have any.

Whoever asks how hard an hour was does it with a scale of 0 to 10, as Foster's session rating does;
the words of the scales that are in print belong to those who wrote them.
"""

HARDEST = 10
EFFORT_WORDS = {0: "as good as sitting", 5: "work, with some left", HARDEST: "not one rep left"}


def scale_words() -> str:
    """The three in a line."""
    return "; ".join(f"{number} {words}" for number, words in EFFORT_WORDS.items())
