"""The coach's keys for what somebody does in the piece to come: options and loads."""

from functools import partial

from classclock.live.live_class import Outcome
from classclock.screens.controls.typed_line import TypedLine
from classclock.screens.live.people.class_people import ClassPeople
from classclock.screens.live.people.kept_answer import KeptAnswer
from classclock.screens.people.option_digits import OptionDigits
from classclock.screens.people.person_questions import LineQuestion, Question
from classclock.wall.between.here_content import HerePerson

_LONGEST_LOAD = len("99:9999.99 kg")
_ONE_LOAD = Outcome("the plan offers one load in the piece to come, or none", refused=True)


class PieceDesk:
    def __init__(self, people: ClassPeople, kept: KeptAnswer) -> None:
        """`kept` gets what comes of what is typed."""
        self._people, self._kept = people, kept
        self.digits = OptionDigits()

    def sign(self, sign: str, one: HerePerson) -> Outcome | Question | None:
        """One key for somebody who is here; None: it means nothing here."""
        if sign.isdecimal() and sign.isascii():
            return self._use_option(one, int(sign))
        piece = self._people.content().piece
        match sign:
            case "<ctrl+o>" if piece is not None:
                self.digits.more(piece)
                return Outcome()
            case "<tab>" if piece is not None and piece.loads:
                return self._people.next_load(one.id)
            case "<tab>" | "=":
                return self._load(one)
        return None

    def _use_option(self, one: HerePerson, digit: int) -> Outcome:
        piece = self._people.content().piece
        if piece is None or not piece.menu:
            name = piece.segment.name if piece is not None else "what is to come"
            return Outcome(f"{name} has no options", refused=True)
        number = self.digits.number(piece, digit)
        if isinstance(number, str):
            return Outcome(number, refused=True)
        return self._people.use_option(one.id, number)

    def _load(self, one: HerePerson) -> Outcome | Question:
        piece = self._people.content().piece
        if piece is None or not piece.by_load:
            return _ONE_LOAD
        return LineQuestion(
            f"{one.name} lifts",
            TypedLine(longest=_LONGEST_LOAD),
            self._kept.of(partial(self._people.set_load, one.id)),
            "82.5 in every set, 3:82.5 in the third; nothing: as planned. Enter keeps it",
        )
