"""The board, drawn by a process of its own while this one still loads what will show it.

On a large wall its letters take as long as a third of loading Textual. The process is a fork: it
has the class already, draws, hands the drawing over and ends. Where none can be had, or its drawing
is not the one that is wanted after all, the board is drawn as it always is: only time is lost.
"""

import os
import select
import signal
import warnings
from shutil import get_terminal_size

import msgspec

from classclock.live.session import Session
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look, look_for
from classclock.screens.canvas.packing import pack, unpack
from classclock.screens.live.board.board_drawing import draw_board
from classclock.wall.board_content import BoardContent, board_now

_FOOT = 1
"""Rows under the board while nothing is wrong."""
_PATIENCE = 0.5
"""Seconds until it is drawn here all the same."""
_CHUNK = 1 << 16


class BoardWanted(msgspec.Struct, frozen=True):
    content: BoardContent
    columns: int
    rows: int
    look: Look


class _Begun(msgspec.Struct, frozen=True):
    wanted: BoardWanted
    process: int
    pipe: int


_begun: list[_Begun] = []
"""At most one: a program shows its first board once."""


def draw_ahead(session: Session) -> None:
    """Begin to draw the board that the class will be shown with, for this terminal."""
    if session.live.phase == "board":
        columns, rows = get_terminal_size()
        look = look_for(session.club)
        begin(BoardWanted(board_now(session), columns, rows - _FOOT, look))


def begin(wanted: BoardWanted) -> None:
    """Draw it in a process of its own, where this machine can have one beside this."""
    if not hasattr(os, "fork") or (os.cpu_count() or 1) < 2:
        return
    reading, writing = os.pipe()
    try:
        process = _fork()
    except OSError:  # too many processes already
        os.close(reading)
        os.close(writing)
        return
    if not process:
        try:
            os.close(reading)
            with os.fdopen(writing, "wb") as out:
                out.write(pack(_drawn(wanted)))
        finally:
            os._exit(0)  # whatever happened: nothing of the class's is closed or said twice
    os.close(writing)
    _begun.append(_Begun(wanted, process, reading))


def _fork() -> int:
    with warnings.catch_warnings():
        # Python warns where other threads run: they may hold locks. The child takes none of ours.
        warnings.simplefilter("ignore", DeprecationWarning)
        return os.fork()


def drawn_ahead(wanted: BoardWanted) -> Drawing | None:
    """What was begun, if this is it; then it is forgotten. None: it is to be drawn here."""
    if not _begun:
        return None
    begun = _begun.pop()
    try:
        data = _received(begun.pipe) if begun.wanted == wanted else b""
        return unpack(data) if data else None
    except msgspec.DecodeError:
        return None  # it ended before it was done
    finally:
        os.close(begun.pipe)
        os.kill(begun.process, signal.SIGKILL)
        os.waitpid(begun.process, 0)


def _drawn(wanted: BoardWanted) -> Drawing:
    return draw_board(wanted.content, wanted.columns, wanted.rows, wanted.look)


def _received(pipe: int) -> bytes:
    """All that comes until the other side ends; nothing if it takes too long."""
    received = b""
    while select.select([pipe], [], [], _PATIENCE)[0]:
        part = os.read(pipe, _CHUNK)
        if not part:
            return received
        received += part
    return b""
