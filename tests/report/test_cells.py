"""Text in a terminal's cells."""

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from classclock.report.cells import wrapped


def test_lines_break_between_words() -> None:
    assert wrapped("also 4+0 with step over a line", 16) == ["also 4+0 with", "step over a line"]
    assert wrapped("", 16) == [""]


@given(st.text(st.sampled_from("ab \u7f8e\u0301"), max_size=60), st.integers(2, 12))
def test_no_line_is_wider_and_no_sign_is_lost(text: str, wide: int) -> None:
    lines = wrapped(text, wide)
    assert all(cell_len(line) <= wide for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())
