"""The file from which a rehearsal types."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.tally.keys.taps_file import TapRow, read_taps
from classclock.units.printable import can_be_shown


def fault(text: str | bytes) -> str:
    raw = text.encode() if isinstance(text, str) else text
    rows, findings = read_taps(raw, "taps.csv")
    assert rows == ()
    (finding,) = findings
    return str(finding)


def test_a_row_is_a_moment_and_its_keys() -> None:
    rows, findings = read_taps(b"83.5,12n\n90,<space>\n", "taps.csv")
    assert findings == ()
    assert rows == (TapRow(83_500, ("1", "2", "n"), 1), TapRow(90_000, ("<space>",), 2))


def test_a_header_blank_lines_and_remarks_are_left_out() -> None:
    text = b"# Turntable, Tuesday\n\nseconds,keys\n\n1,n\n  # a pause\n2,i\n"
    rows, findings = read_taps(text, "taps.csv")
    assert findings == ()
    assert [(row.at, row.line) for row in rows] == [(1_000, 5), (2_000, 7)]


def test_keys_are_written_together_with_names_for_those_without_a_sign() -> None:
    rows, _ = read_taps(b'1,7+12n<Backspace>>nb<ctrl+r>\n1,"82,5n"\n', "taps.csv")
    assert rows[0].signs == (*"7+12n", "<backspace>", *">nb", "<ctrl+r>")
    assert rows[1].signs == tuple("82,5n")


def test_windows_lines_and_a_byte_order_mark_are_fine() -> None:
    rows, findings = read_taps(b"\xef\xbb\xbfseconds,keys\r\n1,n\r\n2,n\r\n", "taps.csv")
    assert findings == ()
    assert [row.at for row in rows] == [1_000, 2_000]


def test_an_empty_file_has_no_rows() -> None:
    assert read_taps(b"", "taps.csv") == ((), ())


@pytest.mark.parametrize(
    ("written", "ms"),
    [("0", 0), ("1.001", 1_001), ("300.000", 300_000), (".5", 500), ("7.", 7_000)],
)
def test_seconds_become_whole_milliseconds(written: str, ms: int) -> None:
    rows, _ = read_taps(f"{written},n".encode(), "taps.csv")
    assert rows[0].at == ms


def test_a_float_another_tool_wrote_is_brought_to_its_millisecond() -> None:
    # 512.2 - 212.2 in floats is 300.00000000000006: that must not pass the 5:00 mark
    rows, _ = read_taps(f"{512.2 - 212.2!r},n".encode(), "taps.csv")
    assert rows[0].at == 300_000


@given(st.integers(0, 999_999_999))
def test_milliseconds_come_back_exactly(ms: int) -> None:
    rows, findings = read_taps(f"{Decimal(ms) / 1000:f},n".encode(), "taps.csv")
    assert findings == ()
    assert rows[0].at == ms


@pytest.mark.parametrize(
    ("text", "what", "instead"),
    [
        ("83.5", "only one column", 'as in "83.5,12n"'),
        ("83.5,", "no keys", 'as in "83.5,12n"'),
        ("1,82,5n", "3 columns", '1,"82,5n"'),
        ("soon,n", '"soon" is not a moment', "83.5"),
        ("nan,n", "not a moment", "83.5"),
        ("1e3,n", "not a moment", "83.5"),
        ("9999999999,n", "not a moment", "83.5"),
        ("1:23,n", "1:23 is not in seconds", "Write 83."),
        ("-2,n", "before go", "0 or more"),
        ("1,<spce>", "no key is called <spce>", "Write <space>"),
        ("1,<home>", "no key is called <home>", "<"),
        ("1,n m", "a blank among the keys", "<space>"),
        ("1,é", 'no key types "é"', "a to z"),
        ("1,<", 'no key types "<"', "<space>"),
        ('1,"n', "quotes", 'as in "83.5,12n"'),
        ("1,n\0", "NUL", "plain text"),
        (b"1,\xff", "not UTF-8", "UTF-8"),
    ],
)
def test_a_bad_row_says_what_to_write_instead(text: str | bytes, what: str, instead: str) -> None:
    told = fault(text)
    assert told.startswith("taps.csv:1 ")
    assert what in told
    assert instead in told


@pytest.mark.parametrize(
    ("written", "nearest"), [("<ctrl+rr>", "<ctrl+r>"), ("<dwn>", "<down>"), ("<esc>", "<escape>")]
)
def test_of_names_that_may_be_meant_the_nearest_alone_is_told(written: str, nearest: str) -> None:
    assert fault(f"1,{written}").endswith(f"Write {nearest}.")


def test_for_a_name_like_no_other_all_are_told() -> None:
    told = fault("1,<zzzz>")
    assert all(name in told for name in ("<space>", "<ctrl+r>", "<f2>"))


def test_rows_out_of_order_are_named_with_both_lines() -> None:
    rows, findings = read_taps(b"5,n\n3,i\n6,b\n", "taps.csv")
    assert [row.line for row in rows] == [1, 3]
    assert str(findings[0]).startswith("taps.csv:2  this moment is earlier than the one in line 1")


def test_every_bad_row_is_found_at_once_and_the_good_ones_are_read() -> None:
    rows, findings = read_taps(b"1,n\nx,n\n2,\xff\n3,n\n4,<nope>\n", "taps.csv")
    assert [row.line for row in rows] == [1, 4]
    assert [finding.line for finding in findings] == [2, 3, 5]


@given(st.binary(max_size=200) | st.text(max_size=80).map(str.encode))
def test_no_file_whatever_is_in_it_ends_in_a_crash(raw: bytes) -> None:
    rows, findings = read_taps(raw, "taps.csv")
    assert [row.at for row in rows] == sorted(row.at for row in rows)
    assert can_be_shown("".join(map(str, findings)))
