"""Loaded by Python before the program: from here on it runs as on the system that is named.

See `imitation.py` for what that means. The folder of this file is to be on PYTHONPATH, and the one
that has `tests/` after it.
"""

import os
from importlib import import_module

import_module(f"tests.terminal.elsewhere.{os.environ['CLASSCLOCK_TEST_SYSTEM']}").begin()
