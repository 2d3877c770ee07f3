"""Which pages there are."""

from collections.abc import Callable, Mapping
from pathlib import Path

from docs.keys_page import keys_page
from docs.plan_page import plan_page

FOLDER = Path(__file__).parent

PAGES: Mapping[str, Callable[[], str]] = {"plan-file.md": plan_page, "keys.md": keys_page}
"""By the name of the file beside this one."""
