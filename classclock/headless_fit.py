"""What `check` says of the cap: whether it fits those who come, by the club's book."""

from collections.abc import Sequence
from pathlib import Path

from classclock import club_folder
from classclock.book.cap_fit import PieceFit, can_be_told, cap_fit
from classclock.book.changes import NAME
from classclock.book.fit_reading import Asked, basis_for
from classclock.book.known_people import options_again
from classclock.clock.source import local_now
from classclock.people_reading import people_called, remembered
from classclock.plan.completing import complete
from classclock.plan.model import Plan
from classclock.plan.movements import Library
from classclock.strength.loads import Unit
from classclock.tally.lanes import Choice
from classclock.tally.lineup import draw_lanes
from classclock.tally.piece import Piece


def piece_fits(
    plan: Plan, names: Sequence[str], folder: Path, library: Library, unit: Unit
) -> tuple[PieceFit, ...]:
    """How each piece would go for these people, with the options that each used last.

    Nothing for a club that remembers nothing yet: its folder is left as it is.
    """
    pieces = [one for one in complete(plan, library).segment if can_be_told(one)]
    remembers = club_folder.results(folder).is_dir() or (folder / NAME).exists()
    if not pieces or not remembers:
        return ()
    known = remembered(folder)
    people = people_called(names, known)
    ids = [person.id for person in people]
    began = int(local_now().timestamp() * 1000)
    basis = basis_for(folder, Asked(ids, plan, began))
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
