"""What the coach counts, answered: an event to be recorded, or a refusal that says what to do."""

from decimal import Decimal
from typing import assert_never

from classclock.plan.option_menu import option_words
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lane_tally import LaneTally
from classclock.tally.refusal import Refusal
from classclock.tally.scores.questions import entry_in_doubt
from classclock.tally.scores.written_scores import read_score
from classclock.tally.sheet import Sheet, newest_entries
from classclock.units.loads import Load

__all__ = ["Refusal", "decide"]


def decide(  # noqa: C901, PLR0912  one case a command
    sheet: Sheet | None, command: cmd.CountCommand, at: int
) -> ev.CountEvent | Refusal:
    """The event that this command comes to. `at` is when its key arrived, in ms of the class.

    No sheet: nothing has been started.
    """
    if sheet is None:
        return Refusal("nothing is running: enter starts the count-in")
    if sheet.settled and not isinstance(command, cmd.Correct):
        return Refusal("these scores are settled: correct one, with a reason")
    match command:
        case cmd.Tap(lane=lane):
            return _if_counted(sheet, ev.Tapped(at, lane))
        case cmd.SetNumber():
            return _set_number(sheet, command, at)
        case cmd.FinishNow(lane=lane):
            return _if_counted(sheet, ev.FinishedNow(at, lane))
        case cmd.Miss(lane=lane, load=amount):
            load = _load(sheet, amount) if amount else None
            return _if_counted(sheet, ev.Lifted(at, lane, load, made=False))
        case cmd.TakeBack(lane=whose, newest=newest):
            if whose is not None:
                return _take_back(sheet, whose, at)
            return _take_back_newest(sheet, newest, at)
        case cmd.TakeOut():
            return _take_out(sheet, command, at)
        case cmd.BringBack():
            taken = sheet.ledgers.taken
            return ev.BroughtBack(at, taken[-1]) if taken else Refusal("nothing was taken back")
        case cmd.Move():
            return _move(sheet, command, at)
        case cmd.ChangeOption():
            return _change_option(sheet, command, at)
        case cmd.StopLane(lane=lane):
            return _if_counted(sheet, ev.StoppedHere(at, lane))
        case cmd.Correct():
            return _correct(sheet, command, at)
        case _:
            assert_never(command)


def _tally(sheet: Sheet, lane: str) -> LaneTally | Refusal:
    return sheet.tallies.get(lane) or Refusal("nobody in this piece has that key")


def _if_counted(sheet: Sheet, event: ev.LaneEvent) -> ev.CountEvent | Refusal:
    """The event, if its lane can take it."""
    tally = _tally(sheet, event.lane)
    if isinstance(tally, Refusal):
        return tally
    counted = sheet.counted(tally, event)
    return counted if isinstance(counted, Refusal) else event


def _set_number(sheet: Sheet, command: cmd.SetNumber, at: int) -> ev.CountEvent | Refusal:
    if sheet.piece.counts_by == "load":
        return _load_made(sheet, command, at)
    number = command.number
    if number is not None and number != int(number):
        return Refusal(f"{number} is no whole number of reps")
    reps = None if number is None else int(number)
    return _if_counted(sheet, ev.Numbered(at, command.lane, command.rounds, reps, command.interval))


def _load_made(sheet: Sheet, command: cmd.SetNumber, at: int) -> ev.CountEvent | Refusal:
    if command.rounds is not None or command.number is None:
        return Refusal("this piece counts loads, not rounds: type the load, then the key")
    if command.number == 0:
        return Refusal("0 is no load: / and the key is a miss")
    load = _load(sheet, command.number)
    lifted = ev.Lifted(
        at, command.lane, load, made=True, interval=command.interval, instead=command.instead
    )
    return _if_counted(sheet, lifted)


def _load(sheet: Sheet, amount: Decimal) -> Load:
    return Load(amount, sheet.piece.unit)


def _take_back_newest(sheet: Sheet, newest: int, at: int) -> ev.CountEvent | Refusal:
    """The newest entry, whoever's, or one before it; the end of the piece is among them."""
    entries = newest_entries(sheet)
    if newest <= len(entries):
        return ev.TookBack(at, entries[newest - 1])
    if not entries:
        return Refusal("there is nothing to take back")
    have = "is only one entry" if len(entries) == 1 else f"are only {len(entries)} entries"
    return Refusal(f"there {have} to take back: -{len(entries)} and enter is the oldest")


def _take_back(sheet: Sheet, lane: str, at: int) -> ev.CountEvent | Refusal:
    tally = _tally(sheet, lane)
    if isinstance(tally, Refusal):
        return tally
    if not tally.entries:
        return Refusal(f"there is nothing of {tally.lane.name}'s to take back")
    return ev.TookBack(at, tally.entries[-1])


def _take_out(sheet: Sheet, command: cmd.TakeOut, at: int) -> ev.CountEvent | Refusal:
    tally = _tally(sheet, command.lane)
    if isinstance(tally, Refusal):
        return tally
    entry = entry_in_doubt(sheet, command.lane, command.doubt)
    if entry is None:
        return Refusal(f"nothing of {tally.lane.name}'s is in doubt: - and a letter takes back")
    return ev.TookBack(at, entry)


def _move(sheet: Sheet, command: cmd.Move, at: int) -> ev.CountEvent | Refusal:
    giver, taker = _tally(sheet, command.lane), _tally(sheet, command.to)
    if isinstance(giver, Refusal):
        return giver
    if isinstance(taker, Refusal):
        return taker
    if giver is taker:
        return Refusal("that is the same lane: > and two letters, from whom and to whom")
    if not giver.entries:
        return Refusal(f"there is nothing of {giver.lane.name}'s to move")
    return _if_it_stands(sheet, ev.Moved(at, giver.entries[-1], command.to), command.to)


def _if_it_stands(sheet: Sheet, event: ev.Moved, lane: str) -> ev.CountEvent | Refusal:
    """The move, if the entry counts where it goes and puts nothing of that lane out of count."""
    before, after = sheet.tallies[lane], sheet.apply(-1, event).tallies[lane]
    lost = set(after.uncounted) - set(before.uncounted)
    if not lost:
        return event
    return Refusal(after.remarks[-1])


def _change_option(sheet: Sheet, command: cmd.ChangeOption, at: int) -> ev.CountEvent | Refusal:
    menu = sheet.piece.option_menu
    if command.option == 0:
        return _if_counted(sheet, ev.OptionChanged(at, command.lane, 0, 0))
    if command.option > len(menu):
        return Refusal(option_words(sheet.piece.segment))
    station, option = menu[command.option - 1]
    return _if_counted(sheet, ev.OptionChanged(at, command.lane, station, option))


def _correct(sheet: Sheet, command: cmd.Correct, at: int) -> ev.CountEvent | Refusal:
    tally = _tally(sheet, command.lane)
    if isinstance(tally, Refusal):
        return tally
    if not command.reason.strip():
        return Refusal("say why: a correction keeps its reason")
    event = read_score(
        command.score,
        sheet.piece,
        tally,
        cap=sheet.timeline.total,
        at=at,
        reason=command.reason.strip(),
    )
    return event if isinstance(event, Refusal) else _if_counted(sheet, event)
