"""Pages printed by a browser: how many sheets, and the words on each."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

CHROMIUM, PDFTOTEXT = shutil.which("chromium"), shutil.which("pdftotext")
needs_a_printer = pytest.mark.skipif(
    CHROMIUM is None or PDFTOTEXT is None, reason="chromium or poppler-utils isn't installed"
)


class Printed:
    """An HTML page as a PDF."""

    def __init__(self, html: bytes, folder: Path) -> None:
        page, self._pdf = folder / "page.html", folder / "page.pdf"
        page.write_bytes(html)
        asked = ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
        profile = f"--user-data-dir={folder / 'profile'}"
        subprocess.run(
            [str(CHROMIUM), *asked, profile, f"--print-to-pdf={self._pdf}", page.as_uri()],
            capture_output=True,
            check=True,
            timeout=120,
        )
        asked = [str(PDFTOTEXT), "-layout", str(self._pdf), "-"]
        text = subprocess.run(asked, capture_output=True, check=True, timeout=60).stdout.decode()
        self.sheets = tuple(text.rstrip("\f").split("\f"))
        """The words on each sheet, as they stand in lines."""

    @property
    def size(self) -> tuple[int, int]:
        """Points of the first sheet, across and down."""
        box = re.search(rb"/MediaBox \[0 0 (\S+) (\S+)\]", self._pdf.read_bytes())
        assert box is not None
        return round(float(box[1])), round(float(box[2]))
