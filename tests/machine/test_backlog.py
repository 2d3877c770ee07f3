"""What waits for a terminal: painting may go, the rest may not, and nothing is torn."""

import re

from hypothesis import given
from hypothesis import strategies as st

from classclock.machine.backlog import Backlog

WHOLE = re.compile(r"(?:\x1b\[[0-9;?]*[a-zA-Z]|\x1b\]22;\w+\x1b\\|[^\x1b])*")
"""ECMA-48's control sequences, an operating system command, and text: none of them cut off."""
SEAM = "\x1b[0m\x1b[?2026l"


def frame(number: int, columns: int = 4) -> bytes:
    """Painting in which every cell has a colour and a sign of three bytes."""
    cells = "".join(f"\x1b[38;2;{column};9;9m▀\x1b[0m" for column in range(columns))
    return f"\x1b[{number};1H{cells}\x1b[1;1H".encode()


def drained(backlog: Backlog) -> bytes:
    taken = b""
    while rest := backlog.rest():
        taken += rest
        backlog.took(len(rest))
    return taken


ACTS = st.one_of(st.integers(1, 90), st.sampled_from(["paint", "send", "leave out", "cut"]))
"""What is done to a backlog, or how many bytes of it are taken."""


@given(st.lists(ACTS, max_size=60))
def test_every_command_comes_whole_and_in_order_and_painting_is_left_out_between_sequences(
    acts: list[int | str],
) -> None:
    backlog, taken = Backlog(), b""
    sent: list[str] = []
    painted: list[str] = []
    for number, act in enumerate(acts):
        match act:
            case "paint":
                painted.append(frame(number).decode())
                backlog.add(frame(number), painting=True)
            case "send":
                sent.append(f"\x1b]22;{number}a\x1b\\")
                backlog.add(sent[-1].encode(), painting=False)
            case "leave out":
                backlog.leave_out_painting()
            case "cut":
                backlog.cut_painting()
            case int(count):
                part = bytes(backlog.rest()[:count])
                backlog.took(len(part))
                taken += part
    text = (taken + drained(backlog)).decode()
    assert WHOLE.fullmatch(text)
    assert re.findall(r"\x1b\]22;\w+\x1b\\", text) == sent
    plain = re.sub(r"\x1b\]22;\w+\x1b\\", "", text)
    if not backlog.behind:
        assert plain == "".join(painted)
    for torn in plain.split(SEAM)[:-1]:
        begun = torn
        while whole := next((one for one in painted if begun.startswith(one)), ""):
            begun = begun.removeprefix(whole)
        assert any(one.startswith(begun) for one in painted)


def test_painting_that_nobody_takes_stays_within_bounds_and_the_rest_does_too() -> None:
    backlog = Backlog()
    for number in range(200):
        backlog.add(frame(number, 7_000), painting=True)
        backlog.add(b"\x1b]22;%s\x1b\\" % (b"hand", b"text")[number % 2], painting=False)
    assert backlog.behind
    left = drained(backlog)
    assert len(left) < 2 * len(frame(0, 7_000))
    assert left.endswith(b"\x1b]22;text\x1b\\")


def test_what_waits_longest_is_one_large_frame_though_it_is_larger_than_all_that_may_wait() -> None:
    backlog = Backlog()
    backlog.add(b"\x1b[?25l", painting=False)
    backlog.add(frame(1, 30_000), painting=True)
    assert not backlog.behind
    assert drained(backlog) == b"\x1b[?25l" + frame(1, 30_000)


def test_while_behind_nothing_is_painted_until_all_is_painted_anew() -> None:
    backlog = Backlog()
    backlog.add(frame(1), painting=True)
    backlog.took(len(backlog.rest()[:9]))
    backlog.leave_out_painting()
    backlog.add(frame(2), painting=True)
    assert drained(backlog) == frame(1)[9:]
    backlog.behind = False
    backlog.add(frame(3), painting=True)
    assert drained(backlog) == frame(3)


def test_what_was_thrown_away_unread_is_given_once_more_if_it_was_a_command() -> None:
    backlog = Backlog()
    backlog.add(b"\x1b[?1049l", painting=False)
    backlog.took(len(backlog.rest()[:3]))
    backlog.start_again()
    assert drained(backlog) == b"\x1b[?1049l"
    backlog.add(frame(1), painting=True)
    backlog.took(len(backlog.rest()[:3]))
    backlog.start_again()
    assert not backlog
