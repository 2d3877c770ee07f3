"""Names as parts of file names."""

import re
import unicodedata

_DEVICES = frozenset(
    {
        "con",
        "prn",
        "aux",
        "nul",
        *(f"{port}{number}" for port in ("com", "lpt") for number in range(10)),
    }
)
"""What no file can be called on Windows, whatever its ending.

Microsoft's "Naming Files, Paths, and Namespaces".
"""


def file_safe(name: str) -> str:
    """Small letters, digits and hyphens, 60 at most, never empty: `../Week 9` is `week-9`."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60].strip("-") or "class"


def whole_name(name: str, kind: str) -> str:
    """As `file_safe`, where nothing else stands in the file's name: `con` is `plan-con`."""
    safe = file_safe(name)
    return f"{kind}-{safe}" if safe in _DEVICES else safe
