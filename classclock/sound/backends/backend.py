"""What every way of sounding the cues has in common."""

from typing import Protocol


class NoSound(Exception):  # noqa: N818 - it is no error of the program: this machine is silent
    """This way of sounding isn't to be had on this machine, at this moment; says why."""


class Backend(Protocol):
    """A way of sounding that is open: it takes the cues off the agenda by itself."""

    name: str

    def fault(self) -> str | None:
        """Why it no longer works; None while it does. Asked twice a second."""
        ...

    def close(self) -> None: ...
