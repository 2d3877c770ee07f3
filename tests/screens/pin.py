"""Draw the pinned pictures anew: `python -m tests.screens.pin`. Look at what git says of them.

Under another version of what draws them a difference may be the library's, and would hide one of
ours: then nothing is written, unless `--these-versions` says that it is meant.
"""

import sys

from tests.screens.pinned_pictures import FOLDER, VIEWS, draw, drawn_under, keep, kept

_MEANT = "--these-versions"


def main(arguments: list[str]) -> int:
    others = {kept(path.name)[0] for path in FOLDER.glob("*.txt")} - {drawn_under()}
    if others and _MEANT not in arguments:
        print(  # noqa: T201  a script that prints
            f"pinned under {'; '.join(sorted(others))}, but here is {drawn_under()}: nothing is "
            f"written. Draw them with those, or add {_MEANT} where no other change is under way."
        )
        return 1
    for view in VIEWS:
        for name, picture in draw(view).items():
            keep(name, picture)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
