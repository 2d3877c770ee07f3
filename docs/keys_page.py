"""The page on the keys: all that help shows, whenever it shows it."""

from typing import get_args

from classclock.plan.formats.counting import CountsBy
from classclock.screens.live.people.people_keys import PEOPLE_KEYS
from classclock.screens.live.screen_keys import SCREEN_KEYS
from classclock.tally.keys.guard import GUARD_MS
from classclock.tally.keys.key_help import KEY_LINES, SIGN_LINES, Group, KeyLine
from classclock.tally.keys.key_language import EMPTIED_MS
from classclock.tally.keys.key_state import LAPSE_MS
from docs.markdown import code, page, table

HEADS = ("keys", "what they mean", "what is counted", "when")

INTRO = f"""\
# The keys of a class

`?` shows them in a class, as far as they mean something at that moment. `n` stands for somebody's
key, the letter beside their name, and N for that person, pair or team; `m` and M are another one.
Capitals are the same keys.

- What is typed before a letter stands large on the screen. It lapses {LAPSE_MS // 1000} s after its
  last sign.
- A key that is struck again within {GUARD_MS / 1000} s is taken for one that is held down: it
  counts once, and the screen says so. A letter, or enter, that ends a number is never refused, nor
  at the settle is enter after any other key. A number counts whole or not at all.
- With something typed, backspace takes off its last sign; once that has emptied it, backspace takes
  no entry back for {EMPTIED_MS / 1000} s.
- Nothing is erased: what is taken back can be brought back.

The last column says when a line holds: on the *board* before a segment, in its *count-in*, while
the clock is *running* or *held*, and once the segment is *over*. Signs are no keys:
they stand on the screens where there is no room for words."""

IN_THE_LIST = """\
## Who is here

`ctrl+p` opens the list of who is here, between segments or while the clock is held. While it is
open these keys are its own, for whoever is lit."""

_COUNTED = {"intervals": "reps of intervals", "nothing": "nothing", "load": "loads"}
_WHEN = {"late": "just after the end"}


def keys_page() -> str:
    lines = (*KEY_LINES, *SCREEN_KEYS, *SIGN_LINES)
    groups = (
        f"## {group.capitalize()}\n\n{table(HEADS, map(_row, _of(group, lines)))}"
        for group in get_args(Group)
    )
    listed = table(HEADS[:2], ((code(line.keys), line.meaning) for line in PEOPLE_KEYS))
    return page(INTRO, *groups, f"{IN_THE_LIST}\n\n{listed}")


def _of(group: str, lines: tuple[KeyLine, ...]) -> tuple[KeyLine, ...]:
    return tuple(line for line in lines if line.group == group)


def _row(line: KeyLine) -> tuple[str, ...]:
    counted = ", ".join(_COUNTED.get(one, one) for one in line.counts_by)
    if set(get_args(CountsBy)) - set(line.counts_by) == {"nothing"}:
        counted = "whatever is scored"
    when = ", ".join(_WHEN.get(one, one) for one in line.phases)
    return code(line.keys), line.meaning, counted or "anything", when or "at any time"
