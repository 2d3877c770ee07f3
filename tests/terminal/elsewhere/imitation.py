"""What the program sees of Python as on another system, while Python itself stays as it is here.

The program's own modules, and those of filelock, see stand-ins for `sys`, `os` and the like: names
that are missing there are missing, others do as that system's documents say. The standard library,
Textual and everything else see Linux as it is. So this tries the program's own branches for each
system, in a real terminal and in real processes; it doesn't try those systems, nor Textual's driver
for Windows, nor any library's own branches but filelock's.
"""

import builtins
import io
import os
from collections.abc import Callable, Mapping
from importlib import import_module
from types import ModuleType
from typing import Any

SHOWN_TO = ("classclock", "filelock")
REAL = {name: import_module(name) for name in ("fcntl", "os", "signal", "time")}
"""As they are here, by the names that they have here: types are checked for other systems, too."""
_real_import = builtins.__import__
_real_open = open


def tell(what: str) -> None:
    """Write down what the system was asked for, for the test to read."""
    if path := os.environ.get("CLASSCLOCK_TEST_TOLD"):
        with _real_open(path, "a", encoding="utf-8") as told:
            told.write(f"{what}\n")


class Seen(ModuleType):
    """A module as it is on another system."""

    def __init__(self, real: ModuleType, without: frozenset[str], instead: dict[str, Any]) -> None:
        super().__init__(real.__name__)
        self.__dict__.update(_real=real, _without=without, **instead)

    def __getattr__(self, name: str) -> Any:
        if name in self.__dict__["_without"]:
            raise AttributeError(f"module {self.__name__!r} has no attribute {name!r}")
        return getattr(self.__dict__["_real"], name)

    def __setattr__(self, name: str, value: Any) -> None:
        setattr(self.__dict__["_real"], name, value)


class Imitation:
    """The modules of another system, and the ones it hasn't got."""

    def __init__(self, missing: frozenset[str]) -> None:
        self._missing = missing
        self._seen: dict[str, ModuleType] = {}
        self._added: dict[str, ModuleType] = {}
        self._also: frozenset[str] = frozenset()

    def show(self, module: str, /, *without: str, **instead: Any) -> None:
        """Let a module be seen without some names, and with others in their place or besides."""
        self._seen[module] = Seen(import_module(module), frozenset(without), instead)

    def add(self, module: str, /, **inside: Any) -> None:
        """Let there be a module that isn't here."""
        self._added[module] = made = ModuleType(module)
        made.__dict__.update(inside)

    def also_to(self, *modules: str) -> None:
        """Show all that to these modules, too."""
        self._also |= frozenset(modules)

    def begin(self) -> None:
        builtins.__import__ = self._import

    def _import(
        self,
        name: str,
        globals: Mapping[str, Any] | None = None,  # noqa: A002  Python's own names
        locals: Mapping[str, Any] | None = None,  # noqa: A002
        fromlist: Any = (),
        level: int = 0,
    ) -> ModuleType:
        if level or not self._is_shown_to(globals or {}):
            return _real_import(name, globals, locals, fromlist, level)
        if name in self._missing:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)
        if name in self._added:
            return self._added[name]
        module = _real_import(name, globals, locals, fromlist, level)
        return self._seen.get(module.__name__, module)

    def _is_shown_to(self, asking: Mapping[str, Any]) -> bool:
        name = str(asking.get("__name__", ""))
        if name == "__main__" and (spec := asking.get("__spec__")) is not None:
            name = spec.name
        return name.partition(".")[0] in SHOWN_TO or name in self._also


def refusing(act: Callable[..., Any], refuses: Callable[..., None]) -> Callable[..., Any]:
    """The same, unless `refuses` raises first."""

    def acting(*arguments: Any, **named: Any) -> Any:
        refuses(*arguments, **named)
        return act(*arguments, **named)

    return acting


def open_only(refuses: Callable[..., None]) -> None:
    """Refuse some files to whoever opens them: pathlib by io's name, all others by Python's."""
    builtins.__dict__["open"] = io.__dict__["open"] = refusing(open, refuses)


def hide_linux_folders() -> None:
    """/proc and /sys are Linux's: whoever looks for a file there, in Python, finds none."""

    def hidden(path: Any = ".", *_: Any, **__: Any) -> None:
        if isinstance(path, str | os.PathLike) and str(path).startswith(("/proc/", "/sys/")):
            raise FileNotFoundError(2, "No such file or directory", str(path))

    open_only(hidden)
    for name in ("open", "stat", "lstat", "scandir", "listdir"):
        setattr(os, name, refusing(getattr(os, name), hidden))
