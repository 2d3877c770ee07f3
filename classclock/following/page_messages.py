"""What a class and the server of its page say to each other: one JSON object a line."""

from msgspec import Struct
from msgspec.json import Decoder, encode

MOST_BYTES = 4_096
"""Of one line."""


class Serve(Struct, frozen=True, tag="serve"):
    """Serve the wall of whatever class runs in this folder. The first that is said."""

    folder: str
    host: str
    port: int
    secret: str = ""
    """Of its address, so that one that is begun anew has the same; empty: the server's own."""


class LetIn(Struct, frozen=True, tag="let in"):
    """The screen that shows these digits may see the class."""

    digits: str


class Served(Struct, frozen=True, tag="served"):
    """It is there. Said again whenever something of it has changed, and every second."""

    url: str
    """With its secret: for the coach's eyes, and whom the coach shows it."""
    bare: str
    """What can be typed with a remote: the page there shows digits and waits."""
    viewers: int = 0
    waiting: tuple[str, ...] = ()
    """The digits of the screens that wait, who came first first."""


class NotServed(Struct, frozen=True, tag="not served"):
    """It can't be, and why, in the coach's words."""

    why: str


PageOrder = Serve | LetIn
PageStatus = Served | NotServed

_ORDERS = Decoder(Serve | LetIn)
_STATUSES = Decoder(Served | NotServed)


def line(message: PageOrder | PageStatus) -> bytes:
    return encode(message) + b"\n"


def read_order(text: bytes) -> PageOrder:
    """Raises: MsgspecError: it is none."""
    order: PageOrder = _ORDERS.decode(text)
    return order


def read_status(text: bytes) -> PageStatus:
    """Raises: MsgspecError: it is none."""
    status: PageStatus = _STATUSES.decode(text)
    return status


def url_host(host: str) -> str:
    """As it stands in an address: an IPv6 one in brackets."""
    return f"[{host}]" if ":" in host else host
