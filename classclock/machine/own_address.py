"""By which address others on the network know this machine."""

import socket

_ELSEWHERE = "192.0.2.1", 9
"""An address for documentation (RFC 5737): nothing is sent there."""


def own_address() -> str:
    """The one by which it would reach others; its own name for itself where there is no network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(_ELSEWHERE)
        except OSError:
            return "127.0.0.1"
        return str(asked.getsockname()[0])
