"""Feeds a reader what a fuzzer thinks of, guided by which lines of ours it reaches.

`python tests/faults/fuzz.py plan.toml [libFuzzer's own options, -max_total_time=60 and the like]`,
with `pip install atheris` first, where it installs. No part of the test command.
"""

import sys
import tempfile
from pathlib import Path

import atheris

sys.path.insert(0, str(Path(__file__).parents[2]))

with atheris.instrument_imports(include=["classclock"]):
    from tests.faults.readers import READERS


def main() -> None:
    named = {reader.file: reader for reader in READERS}
    if len(sys.argv) < 2 or sys.argv[1] not in named:
        sys.exit(f"which reader? {', '.join(named)}")
    reader = named[sys.argv.pop(1)]
    with tempfile.TemporaryDirectory() as folder:
        begin = Path(folder, "begin")
        begin.mkdir()
        (begin / reader.file).write_bytes(reader.good)
        path = Path(folder, reader.file)

        def one(data: bytes) -> None:
            path.write_bytes(data)
            reader.read(path)

        atheris.Setup([*sys.argv, str(begin)], one)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
