"""The demo's piece as it went a week before, from its count-in to its saved scores, at once."""

from classclock.clock.source import MS, WoundSource
from classclock.demo.calls import calls
from classclock.live.session import Session

_APART = 2_000
"""Milliseconds from one stroke of a key to the next, so that none counts as the keyboard's own."""


def run_before(session: Session, source: WoundSource, seed: int) -> None:
    """Run the piece on the board of a session that follows `source`; nothing waits."""
    live = session.live

    def strike(signs: str, *, named: bool = False) -> None:
        for sign in (signs,) if named else signs:
            session.key(sign, 0.0)
        source.jump(_APART * MS)

    strike("<enter>", named=True)
    sheet = live.record.sheet
    if sheet is None:
        return
    shouted, odd = calls(sheet, seed, day="a week before")
    for call in shouted:
        source.jump(max(0, sheet.clock.go + call.at - live.clock.now()) * MS)
        session.key(call.signs, 0.0)
    source.jump((sheet.clock.go + sheet.timeline.total + _APART - live.clock.now()) * MS)
    for key, reps in odd.items():
        strike(f"{reps}{key}")
    for _ in range(2):
        strike("<enter>", named=True)
    session.save()
    session.close()
