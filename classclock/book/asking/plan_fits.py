"""Whether a plan's caps fit those who come, by the club's book."""

from collections.abc import Sequence
from pathlib import Path

from classclock.book.asking.fit_reading import FitQuestion, basis_for
from classclock.book.asking.known_people import options_again
from classclock.book.asking.people_reading import people_called, remembered
from classclock.book.files.any_records import has_records
from classclock.clock.source import local_now
from classclock.plan.model import Plan
from classclock.plan.movements.completing import complete
from classclock.plan.movements.library import Library
from classclock.planning.cap_fit import PieceFit, can_be_told, cap_fit
from classclock.tally.lanes import Choice
from classclock.tally.lineup import draw_lanes
from classclock.tally.piece import Piece
from classclock.units.loads import Unit


def piece_fits(
    plan: Plan, names: Sequence[str], folder: Path, library: Library, unit: Unit
) -> tuple[PieceFit, ...]:
    """How each piece would go for these people, with the options that each used last.

    Nothing for a club that remembers nothing yet: its folder is left as it is.
    """
    pieces = [one for one in complete(plan, library).segment if can_be_told(one)]
    if not pieces or not has_records(folder):
        return ()
    known = remembered(folder)
    people = people_called(names, known)
    ids = [person.id for person in people]
    began = int(local_now().timestamp() * 1000)
    basis = basis_for(folder, FitQuestion(ids, plan, began))
    return tuple(
        cap_fit(
            Piece.of(segment, unit),
            draw_lanes(
                segment,
                people,
                {one.id: Choice(options_again(one, segment)) for one in known if one.id in ids},
            ),
            basis,
        )
        for segment in pieces
    )
