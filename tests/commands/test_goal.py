"""`goal`, as it is typed; and what tells of it: athlete, book, export, import, erasure."""

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from tests.commands.typed import CommandSays, Typed

TODAY = datetime.fromisoformat("2026-11-24T20:00:00+01:00")


@pytest.fixture(autouse=True)
def _a_club(depot: Any, storage: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Noor did the turntable twice, as written and with an option; Bram once. The book on each."""
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(depot.folder))
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.setattr("sys.stdin", None)
    for module in ("athlete", "goal"):
        monkeypatch.setattr(f"classclock.commands.{module}.local_now", lambda: TODAY)
    depot.held(
        "2026-10-02",
        depot.turntable(
            depot.rounds("Noor", 12, loads=["15 kg"]),
            depot.rounds("Bram", 9, loads=["22.5 kg"]),
        ),
        depot.squats(depot.lifted("Noor", "60 kg", "70 kg", "80 kg")),
    )
    depot.held(
        "2026-11-03",
        depot.turntable(depot.rounds("Noor", 14, modification="step-up", loads=["15 kg"])),
        depot.third_rail(depot.timed("Noor", "8:31")),
    )


def goals(command_says: CommandSays, who: str = "Noor") -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(command_says("athlete", who, "--json"))["goals"]
    return found


def test_it_is_set_as_they_last_did_it_and_listed(command_says: CommandSays) -> None:
    said = command_says("goal", "noor", "Turntable", "14", "--by", "2027-03-01")
    assert said == (
        "Noor: turntable 14+0 by 1 March 2027 (as written; 15 kg; 16:00); "
        "classclock book undo takes it back.\n"
    )
    assert command_says("goal", "Noor") == (
        "turntable 14+0 by 1 March 2027 (as written; 15 kg; 16:00): "
        "2 rounds to go, best 12+0 of 2 October 2026\n"
    )
    (goal,) = goals(command_says)
    wanted = {
        "benchmark": "turntable",
        "goal": "14+0",
        "by": "2027-03-01",
        "best": "12+0",
        "reached": False,
    }
    assert wanted.items() <= goal.items()
    assert goals(command_says, "Bram") == []


def test_with_an_option_it_is_another(command_says: CommandSays) -> None:
    command_says("goal", "Noor", "turntable", "15+3", "--option", "Step-Up")
    (goal,) = goals(command_says)
    assert (goal["goal"], goal["best"], goal["modification"]) == ("15+3", "14+0", "step-up")
    assert "1 round and 3 reps to go" in command_says("athlete", "Noor")


def test_scores_are_written_in_their_own_form(command_says: CommandSays) -> None:
    command_says("goal", "Noor", "third rail", "8:00")
    command_says("goal", "Noor", "front squat", "75", "kg", "x", "3")
    page = command_says("athlete", "Noor")
    assert "third-rail 8:00 (as written; 12:00)\n    0:31 to go, best 8:31" in page
    assert "Front Squat 75 kg x 3 (as written)\n    5 kg to go, best 70 kg" in page


def test_reached_is_said_with_its_day(command_says: CommandSays, depot: Any) -> None:
    command_says("goal", "Noor", "turntable", "12+9")
    # Heavier is another load, and so is another length.
    depot.held("2026-11-24", depot.turntable(depot.rounds("Noor", 13, loads=["22.5 kg"])))
    assert not goals(command_says)[0]["reached"]
    lane = depot.rounds("Noor", 12, 10, loads=["15 kg"])
    depot.held("2026-11-24", depot.turntable(lane), time="19:30")
    (goal,) = goals(command_says)
    assert (goal["reached"], goal["reached_on"], goal["best"]) == (True, "2026-11-24", "12+10")
    assert "reached on 24 November 2026 with 12+10" in command_says("goal", "Noor")


def test_another_takes_its_place_and_each_is_undone(command_says: CommandSays) -> None:
    command_says("goal", "Noor", "turntable", "13")
    said = command_says("goal", "Noor", "turntable", "14")
    assert "in place of 13+0" in said
    changes = command_says("book", "changes")
    assert "1  2026" in changes
    assert "the goal 14+0 on turntable for Noor" in changes
    assert command_says("book", "undo") == "Taken back: the goal 14+0 on turntable for Noor.\n"
    assert [one["goal"] for one in goals(command_says)] == ["13+0"]
    command_says("book", "undo", "1")
    assert goals(command_says) == []


def test_it_is_dropped_and_that_is_undone_too(command_says: CommandSays, typed: Typed) -> None:
    command_says("goal", "Noor", "turntable", "14")
    assert "turntable 14+0 is dropped" in command_says("goal", "Noor", "turntable", "--drop")
    assert "no goal yet" in command_says("goal", "Noor")
    said = typed("goal", "Noor", "turntable", "--drop")
    assert (said.status, said.err) == (2, "Noor has no goal on turntable: there is none\n")
    command_says("book", "undo")
    assert len(goals(command_says)) == 1


def test_below_the_best_it_is_refused_with_the_flag(
    typed: Typed, command_says: CommandSays
) -> None:
    said = typed("goal", "Noor", "turntable", "12")
    assert said.status == 1
    assert said.err == (
        "Noor's best so is 12+0 of 2 October 2026, and 12+0 is no better: "
        "--anyway sets it all the same\n"
    )
    assert goals(command_says) == []
    command_says("goal", "Noor", "turntable", "12", "--anyway")
    (goal,) = goals(command_says)
    # What was done before it was set doesn't reach it.
    assert (goal["best"], goal["reached"]) == ("12+0", False)


@pytest.mark.parametrize(("answer", "number"), [("1\n", 1), ("2\n", 0), ("what\n2\n", 0)])
def test_on_a_terminal_it_is_asked(
    typed: Typed,
    command_says: CommandSays,
    monkeypatch: pytest.MonkeyPatch,
    answer: str,
    number: int,
) -> None:
    import io  # noqa: PLC0415

    monkeypatch.setattr("sys.stdin", io.StringIO(answer))
    monkeypatch.setattr("classclock.commands.goal.can_ask", lambda: True)
    said = typed("goal", "Noor", "turntable", "10")
    assert "Set it all the same?" in said.out
    assert said.status == (0 if number else 1)
    assert len(goals(command_says)) == number


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("turntabel", "14"), "did you mean turntable?"),
        (("turntable",), "write the score behind turntable"),
        (("turntable", "soon"), "write rounds and odd reps, as in 7+12"),
        (("turntable", "8:31"), "this benchmark has other scores"),
        (("turntable", "0"), "write more than nothing"),
        (("turntable", "999"), "beyond what people can do"),
        (("third-rail", "8"), "may be 8 reps or 0:08: write which"),
        (("turntable", "14", "--by", "tomorrow"), "is no day: write it as in 2027-03-01"),
        (("turntable", "14", "--by", "2026-11-23"), "2026-11-23 is over"),
        (("turntable", "14", "--option", "stepup"), "is no option of turntable: write step-up"),
        (("turntable", "14", "--load", "heavy"), "22.5 kg"),
        (("turntable", "14", "--length", "long"), "write how long it was"),
        (("turntable", "14", "--drop"), "leave the rest out"),
        (("--drop",), "say on which benchmark"),
    ],
)
def test_what_cant_be_meant_gets_one_sentence(
    typed: Typed, words: tuple[str, ...], why: str
) -> None:
    said = typed("goal", "Noor", *words)
    assert (said.status, said.out) == (2, "")
    assert len(said.err.splitlines()) == 1
    assert why in said.err


def test_a_benchmark_that_a_plan_alone_has(command_says: CommandSays, depot: Any) -> None:
    """Its kind, its length and its options are the plan's."""
    (depot.folder / "plans").mkdir()
    (depot.folder / "plans" / "night.toml").write_text(
        'title = "Night"\n[[segment]]\nname = "Night Line"\nbenchmark = "Night Line"\n'
        'format = "rounds-in-time"\ntime = "9:00"\n'
        '[[segment.station]]\nmovement = "box step-over"\nreps = 6\noptions = ["lower box"]\n',
        "utf-8",
    )
    said = command_says("goal", "Noor", "night line", "10", "--option", "lower box")
    assert said.startswith("Noor: Night Line 10+0 (lower box; 9:00);")
    assert "not done so yet" in command_says("goal", "Noor")


def test_a_book_made_anew_has_it(command_says: CommandSays) -> None:
    command_says("goal", "Noor", "turntable", "13")
    command_says("goal", "Noor", "third rail", "8:00", "--by", "2027-03-01")
    before = command_says("athlete", "Noor", "--json")
    command_says("book", "rebuild")
    assert command_says("athlete", "Noor", "--json") == before


def test_who_is_merged_keeps_it_and_the_later_one_stands(
    command_says: CommandSays,
) -> None:
    command_says("goal", "Bram", "turntable", "10")
    command_says("book", "merge", "Bram", "Noor")
    assert [one["goal"] for one in goals(command_says)] == ["10+0"]
    command_says("book", "undo")
    assert goals(command_says) == []


def test_who_is_erased_leaves_no_goal_behind(command_says: CommandSays, depot: Any) -> None:
    command_says("goal", "Noor", "turntable", "14")
    command_says("goal", "Bram", "turntable", "10")
    command_says("book", "erase", "Noor", "--yes")
    text = (depot.folder / "changes.jsonl").read_text("utf-8")
    assert (text.count('"goal"'), "14+0" in text) == (1, False)
    assert len(goals(command_says, "Bram")) == 1


def test_whoever_asks_is_handed_it(command_says: CommandSays, tmp_path: Path) -> None:
    command_says("goal", "Noor", "turntable", "14", "--by", "2027-03-01")
    command_says("athlete", "Noor", "--folder", str(tmp_path / "for-noor"))
    kept = (tmp_path / "for-noor" / "goals.csv").read_text("utf-8-sig").splitlines()
    assert kept == [
        "name,benchmark,goal,modification,load,work,set,by,ended",
        "Noor,turntable,14+0,,15 kg,16:00,2026-11-24,2027-03-01,",
    ]
    assert "the goal on turntable is 14+0 by 2027-03-01" in (
        tmp_path / "for-noor" / "changes.csv"
    ).read_text("utf-8")
    assert "goals.csv" in (tmp_path / "for-noor" / "README.txt").read_text("utf-8")


def test_all_of_it_goes_to_another_club(
    command_says: CommandSays, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    command_says("goal", "Noor", "turntable", "14", "--by", "2027-03-01")
    command_says("goal", "Noor", "third rail", "8:00")
    command_says("goal", "Noor", "front squat", "75 kg x 3")
    before = command_says("athlete", "Noor")
    command_says("book", "export", str(tmp_path / "out"))
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path / "annexe"))
    assert "3 goals" in command_says("book", "import", str(tmp_path / "out"))
    assert command_says("athlete", "Noor") == before
    assert "nothing new" in command_says("book", "import", str(tmp_path / "out"))
    command_says("book", "undo")
    command_says("book", "import", str(tmp_path / "out"))
    command_says("book", "export", str(tmp_path / "again"))
    for name in ("goals.csv", "results.csv"):
        assert (tmp_path / "again" / name).read_bytes() == (tmp_path / "out" / name).read_bytes()
