"""Plan files: which there are, and each one read."""

from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.machine.bundled import bundled
from classclock.machine.plain_file import NoFileError, open_file
from classclock.plan.reading.plan_reading import LARGEST, Read, parse_plan, refused
from classclock.units.loads import Unit

if TYPE_CHECKING:
    from classclock.plan.movements.library import Library


def plan_path(named: str) -> Path:
    """The file that was named; a sample plan goes by its bare name from any folder."""
    path = Path(named)
    with suppress(OSError):  # a name that is too long for any file; reading it says so
        if not path.exists() and path.name == named:
            sample = bundled("plans") / f"{named.removesuffix('.toml')}.toml"
            if sample.exists():
                return sample
    return path


def plan_paths(folder: Path) -> tuple[Path, ...]:
    """The plan files on offer: the club's own, and the samples; each once."""
    folders = [folder / "plans", _samples()]
    paths = (path for one in folders if one is not None for path in sorted(one.glob("*.toml")))
    return tuple({path.resolve(): path for path in paths}.values())


def read_plan(path: str | Path, unit: Unit = "kg", library: "Library | None" = None) -> Read:
    """Read a plan file, as `parse_plan` reads its text.

    Never raises for what is in the file or where it is.
    """
    file = str(path)
    try:
        with open_file(Path(path)) as opened:
            data = opened.read(LARGEST + 1)
    except FileNotFoundError:
        return refused(file, "there is no such file", "Check the name and the folder")
    except IsADirectoryError:
        return refused(file, "this is a folder", "Name a plan file in it, ending in .toml")
    except PermissionError:
        return refused(file, "this file may not be read", "Give your account the right to read it")
    except NoFileError:
        what = "this is a pipe or a device, no plan file"
        return refused(file, what, "Name a plan file, ending in .toml")
    except (OSError, ValueError):
        return refused(file, "this file can't be read", "Check the name and the folder")
    return parse_plan(data, file, unit, library)


def _samples() -> Path | None:
    try:
        return bundled("plans")
    except FileNotFoundError:
        return None
