"""The own best runs that the lanes of the wall are ahead of or behind."""

from collections.abc import Mapping

from classclock.records.own_bests import OwnBests
from classclock.tally.record import ClassRecord
from classclock.tally.scores.on_for import Earlier
from classclock.tally.sheet import Sheet
from classclock.wall.kept_off import off_the_wall


class KeptRuns:
    """Looked up anew only when a lane's options change, someone comes, or the book is read."""

    def __init__(self) -> None:
        self._for: tuple[object, ...] = ()
        self._kept: Mapping[str, Earlier] = {}

    def of(self, record: ClassRecord, sheet: Sheet, bests: OwnBests) -> Mapping[str, Earlier]:
        """By lane; nobody's who keeps their bests off the wall."""
        lanes = tuple(tally.lane for tally in sheet.tallies.values())
        things = (bests, record.people, sheet.piece, *lanes)
        same = len(things) == len(self._for) and all(
            one is other for one, other in zip(things, self._for, strict=True)
        )
        if not same:
            self._for = things
            self._kept = {
                lane: run
                for lane, run in bests.runs(sheet).items()
                if not off_the_wall(sheet.tallies[lane].lane, record.people)
            }
        return self._kept
