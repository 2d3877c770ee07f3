"""A good file made bad, as a slip, a disk or somebody's malice would."""

import json
import random
from copy import deepcopy
from typing import Any

_PIECES = (
    *(b"\0", b"\xff", b"\xfe\xff", b"\r", b"\n\n", b'"', b"'", b"\\", b"[", b"]", b"{", b"}"),
    *(b"[[segment]]", b"=", b",", b"-1", b"1e999", b"NaN", b"null", b"true", b"9" * 40, b"../"),
    *(b"\x1b[2J", b"[/]", "\u202e".encode(), b"\xed\xa0\x80", b'{"n":0}', b"16:00", b"PT", b"0"),
)


def spoiled(good: bytes, chance: random.Random) -> bytes:
    """A few of these at once: bytes changed, pieces put in, stretches left out or doubled."""
    data = bytearray(good)
    for _ in range(chance.randrange(1, 6)):
        at, to = sorted(chance.randrange(len(data) + 1) for _ in range(2))
        match chance.randrange(5):
            case 0 if at < len(data):
                data[at] = chance.randrange(256)
            case 1:
                data[at:at] = chance.choice(_PIECES)
            case 2:
                del data[at : min(to, at + 200)]
            case 3:
                data[at:at] = data[at : min(to, at + 200)]
            case _:
                word = bytes(data[at : at + 8])
                data = bytearray(bytes(data).replace(word, chance.choice(_PIECES), 3))
    return bytes(data)


_ODD: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 10**30, -(10**30), 0.5, 1e308, float("inf"), float("nan")),
    *("", "\0", "7+12", "../outside", "\ud800", "[/]", "2026-02-30T25:00:00", "x" * 5000),
    *([], {}, [None], {"": None}, [[[[]]]]),
)
"""What no reader asked for in that place."""


def spoiled_json(good: bytes, chance: random.Random) -> bytes:
    """A file of JSON, one line or many, that is JSON still, with a few odd values in it."""
    try:
        lines = [json.loads(good)]
    except ValueError:
        lines = [json.loads(line) for line in good.splitlines()]
    for _ in range(chance.randrange(1, 4)):
        place: Any = lines
        while True:
            key = chance.choice(list(place) if isinstance(place, dict) else range(len(place)))
            inner = place[key]
            if isinstance(inner, dict | list) and inner and chance.random() < 0.9:
                place = inner
                continue
            break
        if chance.random() < 0.2 and place is not lines:
            del place[key]
        else:
            place[key] = deepcopy(chance.choice(_ODD))
    return b"".join(json.dumps(line).encode() + b"\n" for line in lines)
