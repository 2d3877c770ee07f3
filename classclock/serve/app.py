"""What is answered: two pages, what they are made of, the class's events, the laptop's clock.

Only GET; whatever is wrong with a request, the answer is the same. Names are in the events alone,
and events only behind the secret.
"""

from collections.abc import Awaitable, Callable

from msgspec.json import encode
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from starlette.types import ASGIApp, Receive, Scope, Send

from classclock.clock.source import raw_now
from classclock.serve.address import PageAddress
from classclock.serve.assets import BARE, WALL, assets, html
from classclock.serve.door import Door
from classclock.serve.event_stream import EventStream, knocking, looking_on
from classclock.serve.guard import may_ask
from classclock.serve.page_clock import NS_IN_US
from classclock.serve.viewers import Viewers

_HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; "
        "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; "
        "require-trusted-types-for 'script'; trusted-types 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=()",
    "Cache-Control": "no-store",
}
_HTML = "text/html; charset=utf-8"

Answered = Callable[[Request], Awaitable[Response]]


def page_app(
    address: PageAddress, viewers: Viewers, door: Door, *, theme: str, changed: Callable[[], None]
) -> ASGIApp:
    """`changed` is called when somebody comes to look on, or goes."""
    made_of = assets(theme)

    async def bare(_: Request) -> Response:
        return _answer(html(BARE), _HTML)

    async def knock(_: Request) -> Response:
        return _busy() if door.is_full else EventStream(_HEADERS, knocking(door))

    async def asset(request: Request) -> Response:
        found = made_of.get(request.path_params["name"])
        return _nothing() if found is None else _answer(found.data, found.kind)

    async def wall(_: Request) -> Response:
        return _answer(html(WALL), _HTML)

    async def events(_: Request) -> Response:
        if viewers.are_full:
            return _busy()
        return EventStream(_HEADERS, looking_on(viewers, changed))

    async def time(_: Request) -> Response:
        # A page asks several times and keeps the quickest; see `clock.js`.
        return _answer(encode({"at": raw_now() // NS_IN_US}), "application/json")

    def secret(answer: Answered) -> Answered:
        async def if_known(request: Request) -> Response:
            known = address.is_secret(request.path_params["secret"])
            return await answer(request) if known else _nothing()

        return if_known

    routes = [
        Route("/", bare),
        Route("/knock", knock),
        Route("/{name}", asset),
        Route("/{secret}/", secret(wall)),
        Route("/{secret}/events", secret(events)),
        Route("/{secret}/time", secret(time)),
    ]
    app = Starlette(routes=routes, exception_handlers={404: _not_found, 405: _not_found})
    app.router.redirect_slashes = False
    return _Guarded(app, address)


class _Guarded:
    """Lets nothing through that isn't looked at."""

    def __init__(self, app: ASGIApp, address: PageAddress) -> None:
        self._app, self._address = app, address

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        listens = self._address.host, self._address.port
        allowed = may_ask(scope["method"], scope["path"], scope["headers"], listens)
        await (self._app if allowed else _nothing())(scope, receive, send)


def _answer(data: bytes, kind: str) -> Response:
    return Response(data, headers={**_HEADERS, "Content-Type": kind})


def _nothing() -> Response:
    """Whatever was wrong."""
    headers = {**_HEADERS, "Content-Type": "text/plain; charset=utf-8", "Connection": "close"}
    return Response(b"There is nothing here.\n", 404, headers)


def _busy() -> Response:
    headers = {**_HEADERS, "Retry-After": "5", "Connection": "close"}
    return Response(b"", 503, headers)


async def _not_found(_: Request, error: Exception) -> Response:  # noqa: ARG001  starlette's signature
    return _nothing()
