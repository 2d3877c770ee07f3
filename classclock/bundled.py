"""Where the files that come with classclock are: its sounds and its sample plans."""

from pathlib import Path
from typing import Literal

_PACKAGE = Path(__file__).parent


def bundled(name: Literal["sounds", "plans"]) -> Path:
    """The folder of that name: inside an installed package, else beside it in a checkout.

    Raises FileNotFoundError, in a sentence the coach can act on, when neither is there.
    """
    for folder in (_PACKAGE / "bundled" / name, _PACKAGE.parent / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(
        f"the folder {name} that comes with classclock is missing: reinstall it"
    )
