"""Classes that were held at the Depot, written as results files are, for whoever remembers them."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from msgspec import convert

from classclock.book.files.results_writing import path_for, write_document
from classclock.records.document import VERSION, ResultsDocument
from classclock.units.loads import parse_load, plain
from classclock.units.times import parse_time
from tests.blank_results import LANE, PIECE

Lane = dict[str, Any]


class DepotClasses:
    """Makes lanes, pieces and whole classes, and saves them in a club's folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    # -- lanes -------------------------------------------------------------------

    def rounds(self, name: str, rounds: int, odd: int | None = 0, **more: Any) -> Lane:
        """A lane of rounds in time; every round is worth `size` reps (27), each split `each` s."""
        size, each = more.pop("size", 27), more.pop("each", 60)
        odd_words = "?" if odd is None else odd
        done = {
            "rounds": rounds,
            "reps": odd,
            "total_reps": rounds * size + (odd or 0),
            "splits": [each] * rounds,
            "round_reps": [size] * rounds,
        }
        return self.lane(name, f"{rounds}+{odd_words}", **{**done, **more})

    def timed(self, name: str, score: str, **more: Any) -> Lane:
        """A lane of a capped piece: a time, or reps where the cap came first."""
        if ":" in score:
            done = {"time_s": parse_time(score) // 1000, "status": "finished", "total_reps": 72}
        else:
            done = {"total_reps": int(score.removesuffix(" reps")), "status": "capped"}
        return self.lane(name, score, **{**done, **more})

    def reps(self, name: str, reps: int, **more: Any) -> Lane:
        return self.lane(name, f"{reps} reps", **{"total_reps": reps, **more})

    def lifted(self, name: str, *tried: str, **more: Any) -> Lane:
        """A lane scored by load; `/90 kg` was missed. The sets count up."""
        attempts = []
        for number, load in enumerate(tried, start=1):
            read = parse_load(load.removeprefix("/"), "kg")
            kg = float(plain(read.kg))
            attempts.append(
                {
                    "set": number,
                    "load": str(read),
                    "load_kg": int(kg) if kg == int(kg) else kg,
                    "made": not load.startswith("/"),
                }
            )
        made = [attempt for attempt in attempts if attempt["made"]]
        best = max(made, key=lambda attempt: float(str(attempt["load_kg"])), default=None)
        done = {
            "attempts": attempts,
            "load_kg": best["load_kg"] if best else None,
        }
        score = more.pop("score", str(best["load"]) if best else "none made")
        return self.lane(name, score, **{**done, **more})

    def lane(self, name: str, score: str, **more: Any) -> Lane:
        """A lane whose athletes' ids are their names in small letters."""
        return {
            **LANE,
            "athlete": name,
            "score": score,
            "key": name[0].lower(),
            "members": [part.lower() for part in name.split(" + ")],
            **more,
        }

    # -- pieces and classes --------------------------------------------------------

    def turntable(self, *lanes: Lane, **more: Any) -> dict[str, Any]:
        return self.piece("Turntable", "rounds-in-time", lanes, **{"length_s": 960, **more})

    def third_rail(self, *lanes: Lane, **more: Any) -> dict[str, Any]:
        return self.piece("Third Rail", "capped-for-time", lanes, **{"length_s": 720, **more})

    def squats(self, *lanes: Lane, **more: Any) -> dict[str, Any]:
        lift = {"benchmark": None, "lift": "Front Squat", "sets": [5, 3, 1], "length_s": 750}
        return self.piece("Strength", "interval", lanes, **{**lift, **more})

    def piece(self, name: str, form: str, lanes: Sequence[Lane], **more: Any) -> dict[str, Any]:
        benchmark = name.lower().replace(" ", "-")
        named = {"name": name, "format": form, "benchmark": benchmark}
        return {**PIECE, **named, "lanes": list(lanes), **more}

    def document(self, day: str, *pieces: dict[str, Any], **more: Any) -> ResultsDocument:
        """As `values`, read."""
        return convert(self.values(day, *pieces, **more), ResultsDocument)

    def values(self, day: str, *pieces: dict[str, Any], **more: Any) -> dict[str, Any]:
        """A class at half past six in the evening; everybody in a lane is here."""
        time = more.pop("time", "18:30")
        names = {
            member: name
            for piece in pieces
            for lane in piece["lanes"]
            for member, name in zip(lane["members"], lane["athlete"].split(" + "), strict=True)
        }
        return {
            "version": VERSION,
            "title": f"Depot, {day}",
            "started": f"{day}T{time}:00.000+01:00",
            "journal": f"{day}-{time.replace(':', '')}-depot.jsonl",
            "people": [
                {"id": ident, "name": name, "key": name[0].lower()} for ident, name in names.items()
            ],
            "pieces": list(pieces),
            **more,
        }

    def save(self, document: ResultsDocument) -> Path:
        """Write the results files of a class, as the class itself does."""
        path = path_for(document, "depot", self.folder / "results")
        return write_document(path, document)[0]

    def held(self, day: str, *pieces: dict[str, Any], **more: Any) -> Path:
        return self.save(self.document(day, *pieces, **more))


@pytest.fixture
def depot(tmp_path: Path) -> DepotClasses:
    return DepotClasses(tmp_path / "club")
