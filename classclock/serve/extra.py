"""Whether what the server needs is installed: it is an extra."""

from importlib.util import find_spec

NEEDS = "starlette", "uvicorn"


def is_installed() -> bool:
    return all(find_spec(name) is not None for name in NEEDS)
