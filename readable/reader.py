"""What an outside reader reads on a screen, sharp and from ten metres, by role."""

from collections.abc import Iterator, Sequence

from msgspec import Struct
from PIL import Image

from classclock.screens.canvas.cells import Drawing, width
from classclock.screens.canvas.look import Look
from readable.bitmap import WHOLE, grey, picture
from readable.eye import Box, alike, from_afar, nearest, part, read_all, squeezed
from readable.finding import Piece, pieces, standing
from readable.made_class import Seen
from readable.room_texts import Role

_BY_SIGNS: tuple[Role, ...] = ("key", "tally", "load")
"""Read by the nearest of our own signs; all else by tesseract."""


class Found(Struct, frozen=True):
    """How many of a role's texts were read from afar, and sharp; what was read otherwise."""

    role: Role
    count: int
    far: int
    sharp: int
    otherwise: tuple[str, ...] = ()


class Task(Struct, frozen=True):
    """A text to be read; the parts in which it stands, from afar and sharp."""

    text: str
    role: Role
    parts: tuple[tuple[Piece, Image.Image, Image.Image], ...]


def read(seen: Seen, roles: Sequence[Role]) -> list[Found]:
    """What is read of these roles."""
    whole = [picture(page, seen.size.columns) for page in seen.pages]
    afar = [from_afar(page) for page in whole]
    every = pieces(seen)
    tasks = []
    for wanted in seen.wanted:
        if wanted.role in roles:
            found = standing(every, wanted.texts)
            tasks += [
                Task(
                    text,
                    wanted.role,
                    tuple(
                        (
                            piece,
                            part(afar[piece.page], _box(piece, seen), far=True),
                            part(whole[piece.page], _box(piece, seen), far=False),
                        )
                        for piece in places
                    ),
                )
                for text, places in zip(wanted.texts, found, strict=True)
            ]
    return list(_counted(tasks, seen))


def _counted(tasks: list[Task], seen: Seen) -> Iterator[Found]:
    said = {far: _said(tasks, seen, far=far) for far in (True, False)}
    for role in dict.fromkeys(task.role for task in tasks):
        own = [at for at, task in enumerate(tasks) if task.role == role]
        right = {far: sum(said[far][at] == squeezed(tasks[at].text) for at in own) for far in said}
        otherwise = tuple(
            f"{tasks[at].text}: {said[True][at] or '-'}"
            for at in own
            if said[True][at] != squeezed(tasks[at].text)
        )
        yield Found(role, len(own), right[True], right[False], otherwise)


def _said(tasks: list[Task], seen: Seen, *, far: bool) -> list[str]:
    """What each is read as; itself where every part of it is read."""
    words: list[tuple[Image.Image, str]] = []
    spans = []
    for task in tasks:
        own = () if task.role in _BY_SIGNS else task.parts
        spans.append((len(words), len(words) + len(own)))
        words += [(one if far else other, piece.said.text) for piece, one, other in own]
    by_tesseract = read_all(words) if words else []
    said = []
    for task, (begin, end) in zip(tasks, spans, strict=True):
        if not task.parts:
            said.append("(not there)")
        elif task.role in _BY_SIGNS:
            said.append(squeezed(_nearest(task, seen, far=far)))
        else:
            right = all(by_tesseract[at] == squeezed(words[at][1]) for at in range(begin, end))
            said.append(squeezed(task.text) if right else " ".join(by_tesseract[begin:end]))
    return said


def _box(piece: Piece, seen: Seen) -> Box:
    columns, rows = seen.size.columns, seen.size.rows
    return (
        piece.x / columns,
        piece.y / rows,
        (piece.x + piece.columns) / columns,
        (piece.y + piece.rows) / rows,
    )


def _nearest(task: Task, seen: Seen, *, far: bool) -> str:
    """Which of all that may stand there it looks most like."""
    piece, near_by, sharply = task.parts[0]
    text = " ".join(piece.said.text.split())
    own = {}
    for other in alike(task.text):
        drawing = _drawn_so(piece, piece.said.text.replace(task.text, other, 1), seen)
        if width(drawing) > seen.size.columns - piece.x:
            continue
        own[other] = _seen_there(drawing, piece, seen, far=far)
    if task.text not in own or task.text not in text:
        return "(cut)"
    size = own[task.text].size
    looked = (near_by if far else sharply).resize(size)
    return nearest(looked, {sign: one.resize(size) for sign, one in own.items()})


def _drawn_so(piece: Piece, text: str, seen: Seen) -> Drawing:
    """Another text, drawn as this one was, in its colours."""
    said, look = piece.said, Look().with_dots(seen.kind.dots)
    if not said.large:
        return look.text(text, said.columns, ink=said.ink, ground=said.ground)
    return look.letters(
        text, said.columns, said.rows, ink=said.ink, ground=said.ground, air=said.air
    )


def _seen_there(drawing: Drawing, piece: Piece, seen: Seen, *, far: bool) -> Image.Image:
    """The drawing alone on a screen where the piece stands, as the eye has that part."""
    columns, rows = seen.size.columns, seen.size.rows
    screen = Image.new("L", WHOLE, grey(piece.said.ground))
    wide, high = WHOLE[0] / columns, WHOLE[1] / rows
    across = width(drawing)
    own = picture(drawing, across, (round(across * wide), round(len(drawing) * high)))
    screen.paste(own, (round(piece.x * wide), round(piece.y * high)))
    box = _box(piece, seen)
    return part(from_afar(screen) if far else screen, box, far=far)
