"""A club whose every text would steer a terminal: what an old version, or somebody's hand, left."""

import unicodedata
from datetime import datetime
from pathlib import Path

from hypothesis import strategies as st

from classclock.clock.source import WoundSource
from classclock.club.plan_files import read_plan
from classclock.club.settings import read_club
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.tally.lane_keys import people_named
from tests.depot_classes import DepotClasses

STARTED = "2026-11-24T18:30:00+01:00"
OWNED = "\x1b]0;OWNED\x07\x1b[31m"
# The C0 and C1 controls of ECMA-48 (but for NUL, which no command line holds), the formatting
# characters of UAX #9, Unicode's ends of lines.
_STEERING = (
    "".join(map(chr, (*range(1, 0x20), *range(0x7F, 0xA0))))
    + "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u2028\u2029"
)
hostile_texts = st.text(
    st.one_of(st.sampled_from(_STEERING), st.sampled_from("[]0;m\\Jé🚋\u200d")),
    min_size=4,
    max_size=24,
).map(lambda signs: f"{OWNED}{signs}.")
"""What stands in every field: what owns a window's title first, then any."""
_BIDI = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
"""The classes that UAX #9 gives the explicit formatting characters; the marks have a letter's."""
_MARKS = "\u061c\u200e\u200f"

PLAN = """
title = "<Yard>"
[[segment]]
name = "<Practice>"
format = "countdown"
time = "2:00"
lines = ["<easy row>", "<arm circles>"]
[[segment]]
name = "<Squats>"
format = "interval"
repeat = 2
steps = [{ work = "1:00", label = "<heavy>" }, { rest = "0:30", label = "<talk>" }]
lift = "<squat>"
sets = [{ reps = 3, percent = 80 }, { reps = 1, percent = 110 }]
score = "load"
[[segment]]
name = "<Turntable>"
benchmark = "<turntable>"
format = "rounds-in-time"
time = "4:00"
caution = ["<Step down.>"]
  [[segment.station]]
  movement = "<box step-over>"
  reps = 6
  standard = "<both feet>"
  points = ["<look up>"]
  options = ["<lower box>", { name = "<step-up>", reps = 4 }]
  [[segment.station]]
  movement = "<sled>"
  reps = 9
  load = { "<heavier>" = "22.5 kg", "<lighter>" = "15 kg" }
  caution = ["<Not over the head.>"]
"""
CLUB = """
name = "<Depot>"
[emergency]
address = "<0 Points Row>"
defibrillator = "<hall>"
first_aid = "<desk>"
call = "<112>"
[tv]
mirrored = true
[care]
stop = "<Stop.>"
[[bar]]
name = "<Long bar>"
weight = 20
[equipment]
"<sled>" = 1
"""
MOVEMENTS = """
[[movement]]
name = "<sled>"
standard = "<over the line>"
pattern = "push"
equipment = { "<sled>" = 1 }
options = ["<lighter>"]
caution = ["<Heels down.>"]
"""


def steers(text: str) -> list[str]:
    """The signs of it that a terminal would obey; line ends as lines and tables have them aside."""
    return [sign for sign in text.replace("\r\n", "").replace("\n", "") if _steers(sign)]


def _steers(sign: str) -> bool:
    return (
        unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp")
        or unicodedata.bidirectional(sign) in _BIDI
        or sign in _MARKS
    )


def written(text: str, hostile: str) -> str:
    """This TOML with hostile text in each of its <names>."""
    escapes = "".join(f"\\U{ord(sign):08x}" for sign in hostile)
    return text.replace(">", f"{escapes}>")


class HostileClub:
    """A folder with settings, plans, earlier results, and a class that can be opened."""

    def __init__(self, folder: Path, hostile: str) -> None:
        self.folder, self.hostile = folder, hostile
        self.names = tuple(f"{name}{hostile}" for name in ("Ilse", "Bram", "Noor"))
        self.source = WoundSource(0, wall=datetime.fromisoformat(STARTED))
        self.plan = folder / "plans" / "yard.toml"
        self.plan.parent.mkdir(parents=True)
        self.plan.write_text(written(PLAN, hostile), "utf-8")
        (folder / "club.toml").write_text(written(CLUB, hostile), "utf-8")
        (folder / "movements.toml").write_text(written(MOVEMENTS, hostile), "utf-8")
        depot = DepotClasses(folder)
        for day, rounds in (("2026-11-03", 6), ("2026-11-10", 7)):
            lanes = [
                depot.rounds(name, rounds, 4, modification=self.of("step-up"), note=self.of("late"))
                for name in self.names
            ]
            lanes[-1]["score"] = self.of(lanes[-1]["score"])
            piece = {**depot.turntable(*lanes), "name": self.of("Turntable")}
            lifts = {**depot.squats(depot.lifted(self.names[0], "60 kg", f"{60 + rounds} kg"))}
            lifts |= {"name": self.of("Squats"), "lift": f"<squat{hostile}>"}
            depot.held(day, piece | {"benchmark": f"<turntable{hostile}>"}, lifts)

    def of(self, name: str) -> str:
        return f"{name}{self.hostile}"

    def settings(self) -> Club:
        club, findings = read_club(self.folder / "club.toml")
        assert club is not None, findings
        return club

    def plan_file(self) -> PlanFile:
        plan, findings = read_plan(self.plan, "kg")
        assert plan is not None, findings
        return PlanFile(self.of("yard"), self.plan.read_text("utf-8"), plan)

    def opens(self) -> Session:
        """A class of this plan and these names, under time that is wound by hand."""
        return open_session(
            self.plan_file(),
            people_named(self.names),
            folder=self.folder,
            club=self.settings(),
            source=self.source,
            ends=STARTED,
            sound=False,
        )
