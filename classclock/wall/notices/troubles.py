"""What is wrong with a class now, in the coach's words: first what to do about it."""

from collections.abc import Iterator

from classclock.live.session import Session
from classclock.tally.load_flags import open_flags
from classclock.wall.emergency_words import EMPTY, lacks, lacks_briefly
from classclock.wall.notices.notice import Notice
from classclock.wall.on_disk_words import unsaved_words


def troubles_of(session: Session, *, battery: str) -> tuple[Notice, ...]:
    """The weightiest first; `battery` says that it runs low, or nothing."""
    return tuple(_troubles(session, battery))


def _troubles(session: Session, battery: str) -> Iterator[Notice]:
    if session.check_clock:
        yield _stands(
            "check the clock",
            "check the clock: left, right set it by a second, enter when it is right",
            "check the clock: left, right, enter",
            answered_by=("<left>", "<right>", "<enter>"),
        )
    yield from _of_the_disk(session)
    if battery:
        yield _stands("battery", battery)
    if trouble := session.speaker.trouble:
        brief = trouble.partition(": ")[0]
        yield _stands("sound", trouble, brief, "F4: on without sound", answered_by=("<f3>", "<f4>"))
    if session.live.phase == "board":
        yield from _before_the_start(session)
    if count := _loads_to_look_at(session):
        loads = f"{count} load{'s' if count > 1 else ''}"
        if session.live.phase == "board":
            words = f"F7: {loads} to look at before the start"
        else:
            words = f"watch closely: {loads} not looked at before the start"
        brief = words.removesuffix(" before the start")
        yield _stands("flags", words, brief, answered_by=("<f7>",))


def _loads_to_look_at(session: Session) -> int:
    """How many, from the board to the end of the piece: neither whose nor why is for the room."""
    live = session.live
    if live.phase in ("over", "closed"):
        return 0
    return len(open_flags(live.record, live.loads, (live.record.chosen.segment,)))


def _of_the_disk(session: Session) -> Iterator[Notice]:
    refused = session.on_disk.refused
    if refused is not None:
        yield _stands("files", *unsaved_words(refused), answered_by=("<f8>",))
        return
    if session.spare.given_up:
        full = "free some space: the disk is full"
        yield _stands("room", f"{full}, this class is saved in the last of it", full)
    elif session.spare.short:
        yield _stands("room", "free some space: the disk is nearly full")
    if session.on_disk.slow:
        slow = "the disk is slow: a power cut now could lose the last taps"
        yield _stands("slow", slow, "the disk is slow: leave it plugged in")


def _before_the_start(session: Session) -> Iterator[Notice]:
    if lacking := lacks(session.club.emergency):
        brief = lacks_briefly(session.club.emergency)
        asked = "fill in the emergency card" if brief == EMPTY else brief
        if session.live.record.runs:
            yield _stands("card", lacking, brief)
        else:
            yield _stands(
                "card",
                f"press !, then tab: {lacking}",
                f"! then tab: {asked}",
                "fill in the card: ! tab",
                answered_by=("!", "<f2>"),
            )
    if session.left_out:
        yield _stands("movements", session.left_out, "classclock check: movements.toml is wrong")


def _stands(key: str, text: str, *shorter: str, answered_by: tuple[str, ...] = ()) -> Notice:
    return Notice(text, "must", shorter, key, answered_by)
