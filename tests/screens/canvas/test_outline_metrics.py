"""What is known of the font's ASCII, held to the font as Pillow, an outside reader, measures it."""

import subprocess
import sys

from hypothesis import given
from hypothesis import strategies as st

from classclock.screens.canvas.cells import width
from classclock.screens.canvas.letters.outline_metrics import outline_metrics
from classclock.screens.canvas.letters.outline_type import draw_text, text_width
from tests.screens.canvas.measure_font import ASCII, FONT, measured


def test_they_are_the_fonts() -> None:
    assert outline_metrics() == measured(), "python -m tests.screens.canvas.measure_font"


@given(st.text(ASCII, max_size=30))
def test_a_words_length_is_what_the_font_says(word: str) -> None:
    assert outline_metrics().length(word) == FONT.getlength(word)


@given(st.text(ASCII, min_size=1, max_size=30), st.integers(4, 40))
def test_whatever_can_be_drawn_is_as_wide_as_it_measures(text: str, rows: int) -> None:
    drawn = draw_text(text, rows, "#ffffff", "#000000")
    assert (len(drawn), width(drawn)) == (rows, text_width(text, rows))


def test_measuring_ascii_loads_no_font() -> None:
    program = """
import sys
from classclock.screens.canvas.letters.outline_type import line_row, text_width
text_width("Saoirse", 6), text_width("12:30", 9), line_row("Quay", 6)
sys.exit("PIL" in sys.modules)
"""
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
