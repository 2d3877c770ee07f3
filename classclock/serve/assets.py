"""What every page is made of and tells nobody anything: style, script, type, sounds."""

from functools import lru_cache
from pathlib import Path

from msgspec import Struct

from classclock.machine.bundled import bundled
from classclock.serve.style import theme_css
from classclock.sound.messages import KINDS

WALL, BARE = "wall.html", "bare.html"
_FOLDER = Path(__file__).parent / "page"
_KINDS = {
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".ttf": "font/ttf",
    ".wav": "audio/wav",
}
_TYPE = "SourceSansProBold"


class Asset(Struct, frozen=True):
    data: bytes
    kind: str


def html(name: str) -> bytes:
    """One of the two pages."""
    return (_FOLDER / name).read_bytes()


@lru_cache(maxsize=2)
def assets(theme: str) -> dict[str, Asset]:
    """By the names under which the pages ask for them; `theme` is the club's."""
    import font_source_sans_pro  # noqa: PLC0415  the terminal's large letters are of it too

    files = [path for path in _FOLDER.iterdir() if path.suffix in _KINDS]
    files += [bundled("sounds") / f"{kind}.wav" for kind in KINDS]
    found = {path.name: Asset(path.read_bytes(), _KINDS[path.suffix]) for path in files}
    type_file = Path(font_source_sans_pro.font_files_ttf[_TYPE])
    found["type.ttf"] = Asset(type_file.read_bytes(), _KINDS[".ttf"])
    found["theme.css"] = Asset(theme_css(theme).encode(), _KINDS[".css"])
    return found
