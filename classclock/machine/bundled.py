"""Where the files that come with classclock are: its sounds and its sample plans."""

from pathlib import Path
from typing import Literal

_PACKAGE = Path(__file__).parents[1]


def bundled(name: Literal["sounds", "plans"]) -> Path:
    """Find the folder of that name: in an installed package inside it, in a checkout beside it.

    Raises FileNotFoundError, in a sentence the coach can act on, when neither is there.
    """
    for folder in (_PACKAGE / "bundled" / name, _PACKAGE.parent / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"the folder of {name} is missing: install classclock again")
