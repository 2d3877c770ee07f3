"""A file of the club's own settings, as text, or the one finding why it can't be read."""

from pathlib import Path

from classclock.machine.plain_file import NoFileError, open_file
from classclock.plan.findings import Finding


def settings_text(path: Path, largest: int) -> str | Finding | None:
    """The file's text; None where there is no such file. `largest` is in bytes, whole kB.

    Never raises for what is in the file or where it is.
    """
    try:
        with open_file(path) as opened:
            data = opened.read(largest + 1)
        text = data.decode("utf-8-sig")
    except FileNotFoundError:
        return None
    except UnicodeDecodeError:
        return _refused(path, "this file is not UTF-8", "Save it as UTF-8")
    except NoFileError:
        return _refused(path, "this is a pipe or a device, no file", "Put the file in its place")
    except OSError:
        return _refused(path, "this file can't be read", "Check its name and who may read it")
    if len(data) > largest:
        return _refused(path, "this file is too large", f"Keep it under {largest // 1024} kB")
    return text


def _refused(path: Path, what: str, instead: str) -> Finding:
    return Finding(str(path), 0, None, what, instead)
