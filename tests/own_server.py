"""A PostgreSQL server of one test's own, that it may stop and start; with a password."""

import os
import shutil
import socket
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote

import pytest

USER, PASSWORD = "coach", "tr@m/5"
"""Signs that stand otherwise in an address."""
_OWNER = "postgres"


class OwnServer:
    def __init__(self, folder: Path, programs: Path) -> None:
        self._folder, self._programs = folder, programs
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self._port = free.getsockname()[1]
        secret = folder / "password"
        secret.write_text(PASSWORD)
        self._own(folder, secret)
        self._run("initdb", "-U", USER, "--auth=scram-sha-256", f"--pwfile={secret}", "--no-sync")
        self.start()

    def address(self, password: str = quote(PASSWORD, ""), database: str = "postgres") -> str:
        """As in CLASSCLOCK_BOOK."""
        host = f"{USER}:{password}@127.0.0.1:{self._port}"
        return f"postgresql+psycopg://{host}/{database}"

    def start(self) -> None:
        if self._run("pg_ctl", "status", check=False) == 0:
            return
        listens = f"-c listen_addresses=127.0.0.1 -p {self._port} -k {self._folder} -F"
        self._run("pg_ctl", "-l", str(self._folder / "log"), "-w", "-o", listens, "start")

    def stop(self) -> None:
        """At once, as at a power cut: who is connected is thrown out."""
        self._run("pg_ctl", "-m", "immediate", "-w", "stop")

    def _run(self, program: str, *words: str, check: bool = True) -> int:
        data = ["-D", str(self._folder / "data")]
        return subprocess.run(
            [*_as_nobody_special(), str(self._programs / program), *data, *words],
            cwd=self._folder,
            check=check,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        ).returncode

    def _own(self, *paths: Path) -> None:
        if _is_root():
            for path in paths:
                shutil.chown(path, _OWNER)


def _as_nobody_special() -> list[str]:
    """It refuses to run as root."""
    return ["runuser", "-u", _OWNER, "--"] if _is_root() else []


def _is_root() -> bool:
    return sys.platform != "win32" and os.geteuid() == 0


def _is_known(account: str) -> bool:
    if sys.platform == "win32":
        return False
    import pwd  # noqa: PLC0415  not to be had on Windows

    return account in {one.pw_name for one in pwd.getpwall()}


def _programs() -> Path | None:
    """Where a server's programs are, as Debian or a path has them; and who runs them."""
    if _is_root() and not _is_known(_OWNER):
        return None
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    on_path = shutil.which("initdb")
    return found[-1].parent if found else Path(on_path).parent if on_path else None


@pytest.fixture
def own_server() -> Iterator[OwnServer]:
    programs = _programs()
    if programs is None:
        pytest.skip("no PostgreSQL on this machine: Debian's postgresql has it")
    # Not below pytest's own folder: into that nobody else may go.
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    server = OwnServer(folder, programs)
    yield server
    server.start()  # whether it runs or not
    server.stop()
    shutil.rmtree(folder, ignore_errors=True)
