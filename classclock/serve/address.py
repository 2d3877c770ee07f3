"""Where the page is: an address, a port, and a secret that nobody guesses."""

import hmac
import secrets
import socket

from msgspec import Struct

from classclock.following.page_messages import url_host

_ELSEWHERE = "192.0.2.1", 9
"""An address for documentation (RFC 5737): nothing is sent there."""
SECRET_BYTES = 16
"""128 bits."""


def new_secret() -> str:
    """22 signs that are safe in a path."""
    return secrets.token_urlsafe(SECRET_BYTES)


class PageAddress(Struct):
    host: str
    port: int
    secret: str

    @property
    def path(self) -> str:
        return f"/{self.secret}/"

    def is_secret(self, said: str) -> bool:
        """In the same time, however much of it is right."""
        return hmac.compare_digest(said.encode(), self.secret.encode())

    def url(self, host: str) -> str:
        """Where others reach it, if this laptop is `host` to them."""
        return f"http://{url_host(host)}:{self.port}{self.path}"


def own_address() -> str:
    """The one by which others on the network know this laptop; else its own name for itself."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(_ELSEWHERE)
        except OSError:
            return "127.0.0.1"
        return str(asked.getsockname()[0])
