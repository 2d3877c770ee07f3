"""Names as parts of file names."""

import re
import unicodedata


def file_safe(name: str) -> str:
    """Small letters, digits and hyphens, 60 at most, never empty: `../Week 9` is `week-9`."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60].strip("-") or "class"
