"""The handbook's pages say what the program does: they are made from it, and made anew."""

from typing import get_args

import pytest
from pydantic import create_model

from classclock.plan.keys import KEYS
from classclock.plan.model import FORMATS
from classclock.screens.live.people.people_keys import PEOPLE_KEYS
from classclock.screens.live.screen_keys import SCREEN_KEYS
from classclock.tally.keys.key_help import KEY_LINES, Group
from docs.described import meaning
from docs.pages import FOLDER, PAGES

README = FOLDER.parent / "README.md"


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_as_the_program_is_now(name: str) -> None:
    written = (FOLDER / name).read_text("utf-8")
    assert written == PAGES[name](), "python -m docs writes it anew"


@pytest.mark.parametrize("name", PAGES)
def test_the_readme_leads_to_it(name: str) -> None:
    assert f"(docs/{name})" in README.read_text("utf-8")


def test_every_key_of_a_plan_is_explained_with_an_example() -> None:
    page = PAGES["plan-file.md"]()
    for key, known in KEYS.items():
        assert f"| `{key}` | " in page, key
        assert known.example in page or key in ("score", "count", "direction", "name"), key
    for form in FORMATS:
        assert f'`format = "{form}"`' in page


def test_every_line_of_the_help_is_there() -> None:
    page = PAGES["keys.md"]()
    for line in (*KEY_LINES, *SCREEN_KEYS):
        assert f"| `{line.keys}` | {line.meaning} |" in page
    for group in get_args(Group):
        assert f"## {group.capitalize()}\n" in page
    for line in PEOPLE_KEYS:
        assert f"| `{line.keys}` | {line.meaning} |" in page


def test_a_key_that_says_nothing_of_itself_is_named() -> None:
    bare = create_model("Bare", xyzzy=(int, 1))
    with pytest.raises(LookupError, match=r"Bare\.xyzzy says nothing: write it under the field"):
        meaning(bare, "xyzzy")
