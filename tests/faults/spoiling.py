"""A good file made bad, as a slip, a disk or somebody's malice would."""

import random

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
