"""`wall --serve`: what is said where it can't be, and what stands in the terminal where it is."""

import asyncio
import socket
from pathlib import Path
from typing import Any

import pytest

from classclock.commands import command_line
from classclock.commands.shared import serving
from classclock.following.page_messages import Served
from classclock.following.page_words import LACKS_EXTRA
from classclock.plan.settings.club import Club
from classclock.serve.page_server import listen

URL, BARE = "http://127.0.0.1:8420/secret/", "http://127.0.0.1:8420/"


def asked(*words: str, club: Path) -> int:
    return command_line.main(["--club", str(club), *words])


def test_without_the_extra_one_sentence_says_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(serving, "is_installed", lambda: False)
    assert asked("wall", "--serve", club=tmp_path) == 1
    said = capsys.readouterr()
    assert said.err == f"{LACKS_EXTRA}\n"
    assert said.out == ""


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("wall", "--serve", "depot.local"), "write the laptop's own in numbers"),
        (("run", "--serve", "turntable"), "what else is asked before --serve"),
        (("wall", "--serve", "--port", "70000"), "write a number from 1 to 65535"),
        (("wall", "--serve", "--port", "-1"), "port"),
        (("wall", "--port", "8420"), "wall --serve --port"),
    ],
)
def test_what_makes_no_sense_is_bad_use(
    words: tuple[str, ...],
    says: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    try:
        status = asked(*words, club=tmp_path)
    except SystemExit as ended:
        status = int(ended.code or 0)
    assert status == 2
    assert says in capsys.readouterr().err


def test_a_port_that_is_taken_is_said_with_what_to_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(serving, "give_way", lambda: None)
    with listen("127.0.0.1", 0) as taken:
        port = str(taken.getsockname()[1])
        assert asked("wall", "--serve", "--port", port, club=tmp_path) == 1
    assert "give another --port" in capsys.readouterr().err


def test_an_address_that_isnt_this_laptops_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(serving, "give_way", lambda: None)
    # An address for documentation (RFC 5737): nobody's.
    assert asked("wall", "--serve", "192.0.2.7", "--port", "0", club=tmp_path) == 1
    assert "give one of its own" in capsys.readouterr().err


def test_its_address_stands_on_a_line_of_its_own_and_who_asks_is_said_once(
    capsys: pytest.CaptureFixture[str],
) -> None:
    said = serving._Said()
    said.hear(Served(URL, BARE))
    said.hear(Served(URL, BARE, 3, ("483920",)))
    said.hear(Served(URL, BARE, 4, ("483920",)))
    lines = capsys.readouterr().out.splitlines()
    assert lines.count(URL) == 1
    assert sum("483 920" in line for line in lines) == 1
    said.hear(Served(URL, BARE, 4))
    said.hear(Served(URL, BARE, 4, ("483920",)))
    assert "483 920" in capsys.readouterr().out, "it asks again"


async def test_digits_that_are_typed_let_a_screen_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    let: list[str] = []

    class Server:
        def __init__(self, *_: Any) -> None:
            pass

        def let_in(self, digits: str) -> bool:
            let.append(digits)
            return digits == "483920"

        async def run(self) -> None:
            for _ in range(200):
                await asyncio.sleep(0.005)
                if len(let) == 2:
                    return

    monkeypatch.setattr("classclock.serve.page_server.PageServer", Server)
    monkeypatch.setattr("sys.stdin", ["483 920\n", "\n", "111111\n"])
    with socket.socket() as unused:
        await serving._served(tmp_path, Club(), unused)
    assert let == ["483920", "111111"]
    assert "no screen shows 111111" in capsys.readouterr().out
