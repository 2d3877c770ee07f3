"""Something done right after a module has been loaded, before anybody takes anything from it."""

import sys
from collections import defaultdict
from collections.abc import Callable, Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder
from types import ModuleType
from typing import Any

Do = Callable[[Any], object]


def after_import(module: str, do: Do) -> None:
    """What is done to the module of this name, after what was to be done to it before."""
    if not _FINDER.to_do:
        sys.meta_path.insert(0, _FINDER)
    _FINDER.to_do[module].append(do)


class _Finder(MetaPathFinder):
    def __init__(self) -> None:
        self.to_do: defaultdict[str, list[Do]] = defaultdict(list)

    def find_spec(
        self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        if fullname not in self.to_do:
            return None
        spec = PathFinder.find_spec(fullname, path, target)
        if spec is None or spec.loader is None:
            return None
        load = spec.loader.exec_module

        def load_and_do(module: ModuleType) -> None:
            load(module)
            for do in self.to_do[fullname]:
                do(module)

        spec.loader.exec_module = load_and_do  # type: ignore[method-assign]
        return spec


_FINDER = _Finder()
