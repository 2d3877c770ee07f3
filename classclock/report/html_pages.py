"""HTML pages, each one file by itself: no script, nothing fetched from anywhere."""

from functools import cache
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from classclock.records.bests import long_day
from classclock.units.printable import escaped, printable

_PAGEFUL = 2000
"""Signs of about half a page."""


@cache
def _templates() -> Environment:
    environment = Environment(
        loader=PackageLoader("classclock.report"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_shown,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["whole"] = whole
    environment.filters["long_day"] = long_day
    return environment


def whole(text: str) -> str:
    """Text of a file as a page may hold it; only what fills a page by itself is cut."""
    return printable(text, _PAGEFUL)


def _shown(value: object) -> str:
    """A value as a page may hold it; what a template made out of others stays as it is."""
    return value if isinstance(value, Markup) else escaped(str(value))


def page(template: str, **values: Any) -> bytes:
    """A page from one of the templates; every value is put in as text, never as markup."""
    return _templates().get_template(template).render(**values).encode()
