"""Looking for a name in the bytes of a file, by other means than the program does."""

import html
import re
import unicodedata


def holds_name(data: bytes, name: str, own: str = "") -> bool:
    """Whether a name stands there as a word of its own, whatever escapes its format has.

    Within the person's `own` name it stands for them: `Wiebe` in `Wiebe 2`. How a page is to look
    is said in words that people may be called by (`max-width`): nobody wrote those.
    """
    text = html.unescape(data.decode("utf-8", "replace"))
    text = re.sub(r"<style>.*</style>", "", text, flags=re.DOTALL)
    text = re.sub(r"\\u([0-9a-fA-F]{4})", lambda code: chr(int(code[1], 16)), text)
    wanted = re.escape(_folded(name))
    folded = _folded(text)
    if own and wanted in re.escape(_folded(own)):
        folded = folded.replace(_folded(own), "-")
    return re.search(rf"(?<![^\W_]){wanted}(?![^\W_])", folded) is not None


def _folded(text: str) -> str:
    return unicodedata.normalize("NFC", text).casefold()
