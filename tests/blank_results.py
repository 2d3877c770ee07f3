"""All that a results file says of a lane and of a piece, with nothing done in either."""

from typing import Any

LANE: dict[str, Any] = {
    "rank": 1,
    "athlete": "Ilse",
    "score": "",
    "rounds": None,
    "reps": None,
    "total_reps": None,
    "time_s": None,
    "load_kg": None,
    "modification": "",
    "status": "scored",
    "best_before": None,
    "note": "",
    "key": "i",
    "members": ["ilse"],
    "heat": 1,
    "late": False,
    "options": [],
    "own_options": None,
    "start_station": 0,
    "splits": [],
    "intervals": [],
    "attempts": [],
    "flags": [],
    "loads": [],
    "round_reps": [],
    "option_changed_s": None,
}
PIECE: dict[str, Any] = {
    "name": "Sandbox",
    "format": "rounds-in-time",
    "benchmark": None,
    "lift": None,
    "sets": [],
    "length_s": 600,
    "caution": [],
    "attempt": 1,
    "status": "settled",
    "lanes": [],
}
