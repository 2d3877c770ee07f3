"""Whether everything can be installed without a compiler: `python -m tests.wheels`.

For each system and each Python that we name, pip is asked for wheels of all that is needed there.
It asks the package index and installs nothing; two minutes. What runs there is another question.
"""

import re
import subprocess
import sys
import tomllib
from collections.abc import Iterable, Mapping
from importlib.metadata import PackageNotFoundError, requires
from pathlib import Path

from msgspec import Struct
from packaging.requirements import Requirement

ROOT = Path(__file__).parent.parent
_NONE = re.compile(r"satisfies the requirement (\S+)")
PYTHONS = ("3.11", "3.12", "3.13", "3.14")


class System(Struct, frozen=True):
    """A system as packages name it: in their markers, and in the tags of their wheels."""

    name: str
    sys_platform: str
    platform_system: str
    platform_machine: str
    tags: tuple[str, ...]


_GLIBC = ("manylinux_2_28", "manylinux_2_27", "manylinux_2_24", "manylinux_2_17", "manylinux2014")
"""glibc 2.28 is from 2018: Debian 10 and Red Hat 8 have it."""
_OLDER = ("manylinux_2_12", "manylinux2010", "manylinux_2_5", "manylinux1")

SYSTEMS = (
    System("Windows", "win32", "Windows", "AMD64", ("win_amd64",)),
    System("macOS, arm64", "darwin", "Darwin", "arm64", ("macosx_13_0_arm64",)),
    System("macOS, x86_64", "darwin", "Darwin", "x86_64", ("macosx_13_0_x86_64",)),
    System(
        "Linux, x86_64",
        "linux",
        "Linux",
        "x86_64",
        tuple(f"{tag}_x86_64" for tag in _GLIBC + _OLDER),
    ),
    System("Linux, arm64", "linux", "Linux", "aarch64", tuple(f"{tag}_aarch64" for tag in _GLIBC)),
)


def environment(system: System, python: str) -> dict[str, str]:
    """What markers are judged by there."""
    return {
        "sys_platform": system.sys_platform,
        "platform_system": system.platform_system,
        "platform_machine": system.platform_machine,
        "platform_release": "",
        "platform_version": "",
        "os_name": "nt" if system.sys_platform == "win32" else "posix",
        "python_version": python,
        "python_full_version": f"{python}.0",
        "implementation_name": "cpython",
        "implementation_version": f"{python}.0",
        "platform_python_implementation": "CPython",
    }


def needed(system: System, python: str) -> dict[str, Requirement]:
    """What is needed there, by name: what we name, what that names, and so on.

    Of what isn't installed here, as it isn't needed here, nothing further is known.
    """
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    lines = (*project["dependencies"], *project["optional-dependencies"]["postgresql"])
    found: dict[str, Requirement] = {}
    there = environment(system, python)
    ahead = _of_these(lines, {""}, there)
    while ahead:
        wanted = ahead.pop()
        name = wanted.name.lower().replace("_", "-")
        if name not in found:
            found[name] = wanted
            ahead += _of_these(_named_by(name), {"", *wanted.extras}, there)
    return found


def _named_by(package: str) -> list[str]:
    try:
        return requires(package) or []
    except PackageNotFoundError:
        return []


def _of_these(
    lines: Iterable[str], extras: set[str], there: Mapping[str, str]
) -> list[Requirement]:
    return [
        one
        for one in map(Requirement, lines)
        if one.marker is None or any(one.marker.evaluate({**there, "extra": e}) for e in extras)
    ]


def lacking(system: System, python: str) -> list[str]:
    """What has no wheel there, by name; pip's own words where it says something else."""
    wanted = [f"{one.name}{one.specifier}" for one in needed(system, python).values()]
    missing: list[str] = []
    while said := _asked(system, python, wanted):
        match = _NONE.search(said)
        missing.append(match[1] if match else said)
        wanted = [one for one in wanted if match and one != match[1]]
    return missing


def _asked(system: System, python: str, wanted: list[str]) -> str:
    """The first line of what pip says is missing; empty where it finds all."""
    platforms = [word for tag in system.tags for word in ("--platform", tag)]
    done = subprocess.run(
        [
            *(sys.executable, "-m", "pip", "install", "--quiet", "--dry-run", "--no-deps"),
            *("--ignore-installed", "--only-binary=:all:", "--target", "nowhere"),
            *("--python-version", python, *platforms, *wanted),
        ],
        check=False,
        capture_output=True,
        text=True,
    )
    lines = [line for line in done.stderr.splitlines() if line.startswith("ERROR")]
    return (lines or [done.stderr.strip()])[0] if done.returncode else ""


def main() -> int:
    missing = False
    for system in SYSTEMS:
        for python in PYTHONS:
            names = lacking(system, python)
            missing = missing or bool(names)
            count = len(needed(system, python))
            words = f"no wheel of {', '.join(names)}" if names else f"{count} packages, all there"
            print(f"{system.name:14} Python {python}: {words}", flush=True)  # noqa: T201
    return int(missing)


if __name__ == "__main__":
    sys.exit(main())
