"""The class's page: begun on asking, and what there is to say of it."""

import secrets
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from classclock.following.page_messages import NotServed, PageStatus, Serve, Served
from classclock.following.page_words import asks_words, spaced
from classclock.live.session import Session

if TYPE_CHECKING:
    from classclock.following.page_process import PageProcess  # loaded where a page is asked for

_SECRET_BYTES = 16


class PageServing:
    """`status` is how it stands; None: nobody has asked for it, or it is being begun."""

    def __init__(
        self, session: Session, begin: "Callable[[Serve], PageProcess] | None" = None
    ) -> None:
        """`begin` starts the server's process."""
        self._session, self._begin = session, begin
        self._process: PageProcess | None = None
        self._said: set[str] = set()

    @property
    def status(self) -> PageStatus | None:
        return self._process.status if self._process is not None else None

    def start(self, host: str = "", port: int | None = None) -> None:
        """Begin it, unless it is there; at the club's address where none is said."""
        if self._process is not None:
            if not isinstance(self._process.status, NotServed):
                return
            self._process.close()
        page = self._session.club.page
        secret = "" if page.same_address else secrets.token_urlsafe(_SECRET_BYTES)
        folder = str(self._session.settings.parent.absolute())
        at = host or page.address, page.port if port is None else port
        if self._begin is None:
            from classclock.following.page_process import PageProcess  # noqa: PLC0415  see above

            self._begin = PageProcess
        self._process = self._begin(Serve(folder, *at, secret))

    def let_in(self, digits: str) -> None:
        if self._process is not None:
            self._process.let_in(digits)

    def stop(self) -> None:
        if self._process is not None:
            self._process.close()

    def said(self) -> Iterator[str]:
        """What has to be read and wasn't said yet: why it isn't there, who asks to see it."""
        status = self.status
        now = set()
        if isinstance(status, NotServed):
            now.add(status.why)
        elif isinstance(status, Served):
            now |= {f"ctrl+l: {asks_words(spaced(digits))}" for digits in status.waiting}
        yield from sorted(now - self._said)
        self._said = now
