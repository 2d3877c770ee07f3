"""A module of the program as another system would load it: its own, with stand-ins beside it.

It shows which way the module takes there, and with what; not that the system does as it should.
"""

import importlib.util
import sys
from types import ModuleType
from typing import Any

import pytest


def as_on(platform: str, name: str, patch: pytest.MonkeyPatch, **modules: Any) -> Any:
    """Load the module `name` anew as on that system, `modules` in the place of real ones."""
    found = importlib.util.find_spec(name)
    assert found is not None
    assert found.loader is not None
    loaded = importlib.util.module_from_spec(found)
    with patch.context() as there:
        there.setattr(sys, "platform", platform)
        for called, stand_in in modules.items():
            there.setitem(sys.modules, called, stand_in)
        found.loader.exec_module(loaded)
    return loaded


def module_of(name: str, **inside: Any) -> ModuleType:
    """A stand-in for a module."""
    made = ModuleType(name)
    made.__dict__.update(inside)
    return made
