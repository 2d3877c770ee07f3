"""What `functools.lru_cache` keeps in the program: switched off by name, in turns, or counted.

A name is the module that keeps it and the function that is kept: `strength.set_loads:_set_loads`.
"""

import functools
import sys
from collections import defaultdict
from collections.abc import Callable
from time import perf_counter_ns
from typing import Any

_PACKAGE = "classclock."
_Function = Callable[..., Any]
_Keep = Callable[[str, _Function, Callable[[_Function], Any]], Any]


def keep_no(asked: str) -> None:
    """Those whose names begin so are worked out whenever they are asked for.

    Several beginnings have commas between: what lies under another one pays only without it.
    """

    def keep(name: str, function: _Function, kept: Callable[[_Function], Any]) -> Any:
        return function if name.startswith(tuple(asked.split(","))) else kept(function)

    _instead(keep)


def keep_in_turns() -> Callable[[str], None]:
    """Called with a name, those whose names begin so are worked out; with nothing, none is.

    Whoever is kept costs the same in both turns: a look at a flag of its own.
    """
    flags: defaultdict[str, list[bool]] = defaultdict(lambda: [False])

    def keep(name: str, function: _Function, kept: Callable[[_Function], Any]) -> Any:
        one, flag = kept(function), flags[name]

        def kept_or_not(*of: Any, **more: Any) -> Any:
            return (function if flag[0] else one)(*of, **more)

        return kept_or_not

    def turn(asked: str) -> None:
        for name, flag in flags.items():
            flag[0] = bool(asked) and name.startswith(tuple(asked.split(",")))

    _instead(keep)
    return turn


def count() -> Callable[[], dict[str, dict[str, int]]]:
    """What tells of each, from now on, how often it was asked for and what working out took."""
    all_kept: defaultdict[str, list[Any]] = defaultdict(list)
    took: defaultdict[str, int] = defaultdict(int)

    def keep(name: str, function: _Function, kept: Callable[[_Function], Any]) -> Any:
        def timed(*of: Any, **more: Any) -> Any:
            began = perf_counter_ns()
            try:
                return function(*of, **more)
            finally:
                took[name] += perf_counter_ns() - began

        one = kept(timed)
        all_kept[name].append(one)
        return one

    def counted() -> dict[str, dict[str, int]]:
        infos = {name: [one.cache_info() for one in every] for name, every in all_kept.items()}
        return {
            name: {
                "hits": sum(one.hits for one in every),
                "misses": sum(one.misses for one in every),
                "kept": sum(one.currsize for one in every),
                "bound": max(one.maxsize for one in every),
                "ns": took[name],
            }
            for name, every in infos.items()
        }

    _instead(keep)
    return counted


def _instead(keep: _Keep) -> None:
    """Let the program's own be kept by this; everybody else's stay as they are."""
    usual = functools.lru_cache

    def lru_cache(maxsize: Any = 128, typed: bool = False) -> Any:  # noqa: FBT001, FBT002  as Python has it
        kept: Any = usual(maxsize, typed)
        module = sys._getframe(1).f_globals.get("__name__", "")
        if callable(maxsize) or not module.startswith(_PACKAGE):
            return kept
        place = module.removeprefix(_PACKAGE)
        return lambda function: keep(f"{place}:{_called(function)}", function, kept)

    functools.lru_cache = lru_cache


def _called(function: Any) -> str:
    while isinstance(function, functools.partial):
        function = function.func
    return str(function.__qualname__)
