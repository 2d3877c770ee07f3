import csv
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.plan.model import is_piece
from classclock.records.document import COLUMNS
from classclock.tally.commands import Tap
from classclock.tally.lanes import Person


def results(folder: Path) -> dict[str, Any]:
    (path,) = (folder / "results").glob("*.json")
    document: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return document


def to_the_piece(coach: Any) -> None:
    """Through the warm-up, to the board of the piece."""
    coach.start()
    coach.wind(60)
    coach.type("<enter>")


def test_a_class_goes_from_warm_up_to_settled_scores_in_a_file(coach: Any, tmp_path: Path) -> None:
    assert coach.session.live.phase == "board"
    coach.start()
    assert coach.session.live.phase == "running"
    coach.wind(60)
    assert coach.session.live.phase == "over"
    coach.type("<enter>")
    assert coach.session.live.record.segment.name == "Turntable"
    coach.start()
    for second in range(60, 960, 60):
        coach.wind(60)
        assert coach.type("n") == f"Noor, round {second // 60}, {second // 60}:00"
        if second % 120 == 0:
            coach.type("i")
    coach.wind(60)
    assert coach.session.live.phase == "over"
    coach.session.save()
    assert results(tmp_path)["pieces"][0]["status"] == "provisional"
    coach.wind(5)
    coach.type("12n")
    coach.type("3i")
    coach.wind(2)
    assert coach.type("<enter>") == "Bram: 0+0, as it stands. Backspace asks again"
    coach.wind(2)
    coach.type("<enter>")
    assert coach.session.live.phase == "closed"
    coach.session.save()
    saved = results(tmp_path)
    assert saved["title"] == "Depot Tuesday"
    assert saved["started"] == "2026-11-24T18:30:00.000+01:00"
    piece = saved["pieces"][0]
    assert piece["status"] == "settled"
    assert [(lane["rank"], lane["athlete"], lane["score"]) for lane in piece["lanes"]] == [
        (1, "Noor", "15+12"),
        (2, "Ilse", "7+3"),
        (3, "Bram", "0+0"),
    ]
    # 27 reps a round: 15 rounds and 12 reps are 417
    assert piece["lanes"][0]["total_reps"] == 15 * 27 + 12
    assert piece["lanes"][0]["splits"] == [60] * 15


def test_the_csv_has_the_promised_columns_and_line_ends(coach: Any, tmp_path: Path) -> None:
    to_the_piece(coach)
    coach.start()
    coach.wind(960)
    coach.session.save()
    (path,) = (tmp_path / "results").glob("*.csv")
    data = path.read_bytes()
    # RFC 4180: lines end in CRLF
    assert data.count(b"\r\n") == data.count(b"\n") == 4
    rows = list(csv.reader(data.decode().splitlines()))
    assert rows[0] == list(COLUMNS)
    assert path.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("name", ["=cmd()", "+1", "-Bram", "@x", '"Ilse", "x"'])
def test_no_name_can_run_as_a_formula_in_a_spreadsheet(
    open_class: Callable[..., Any], tmp_path: Path, name: str
) -> None:
    coach = open_class(name)
    to_the_piece(coach)
    coach.start()
    coach.wind(960)
    coach.session.save()
    (path,) = (tmp_path / "results").glob("*.csv")
    with path.open(encoding="utf-8", newline="") as file:
        cell = list(csv.reader(file))[1][1]
    assert not cell.startswith(("=", "+", "-", "@"))
    assert cell.endswith(name)


def test_results_never_overwrite_those_of_another_class(
    open_class: Callable[..., Any], tmp_path: Path
) -> None:
    first, second = open_class("Ilse"), open_class("Bram")
    for coach in (first, second):
        to_the_piece(coach)
        coach.start()
        coach.wind(960)
        assert coach.session.save()
        assert coach.session.save()  # again under its own name
    names = sorted(path.name for path in (tmp_path / "results").glob("*.json"))
    assert names == ["2026-11-24-1830-turntable-2.json", "2026-11-24-1830-turntable.json"]
    athletes = {
        json.loads(path.read_text("utf-8"))["people"][0]["name"]
        for path in (tmp_path / "results").glob("*.json")
    }
    assert athletes == {"Ilse", "Bram"}


def test_a_folder_that_cannot_be_written_keeps_everything_and_another_place_takes_it(
    coach: Any, tmp_path: Path
) -> None:
    (tmp_path / "results").write_text("a file where the folder should be")
    to_the_piece(coach)
    coach.start()
    coach.wind(300)
    coach.type("n")
    coach.wind(660)
    assert not coach.session.save()
    coach.session.journal.settle(5)
    lacking = coach.session.on_disk.lacking
    assert (lacking.entries, lacking.results) == (0, True)
    assert (lacking.where, lacking.why) == (tmp_path, "something else has that name")
    elsewhere = tmp_path / "stick"
    coach.session.save_elsewhere(elsewhere)
    assert coach.session.on_disk.lacking is None
    (path,) = (elsewhere / "results").glob("*.json")
    assert json.loads(path.read_text("utf-8"))["pieces"][0]["lanes"][0]["score"] == "1+?"
    assert list((elsewhere / "journals").glob("*.jsonl"))


def test_a_failed_writing_leaves_the_file_before_it_whole(
    coach: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    to_the_piece(coach)
    coach.start()
    coach.wind(300)
    coach.type("n")
    coach.session.save()
    before = results(tmp_path)
    coach.wind(60)
    coach.type("n")

    def full(_: Path, __: Path) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(Path, "replace", full)
        assert not coach.session.save()
    assert results(tmp_path) == before
    assert not list((tmp_path / "results").glob(".writing*"))
    coach.session.try_again()
    assert results(tmp_path)["pieces"][0]["lanes"][0]["rounds"] == 2


def test_a_warm_up_cut_short_can_be_taken_up_again(coach: Any) -> None:
    coach.start()
    coach.wind(20)
    coach.type("<space>")
    coach.wind(2)
    coach.type("<enter>")
    assert coach.session.live.phase == "over"
    coach.wind(2)
    took_back = "took back the end of the segment. - backspace brings it back"
    assert coach.type("<backspace>") == took_back
    assert coach.session.live.phase == "held"
    coach.type("<space>")
    coach.wind(39)
    assert coach.session.live.phase == "running"
    coach.wind(1)
    assert coach.session.live.phase == "over"


def test_a_false_start_begins_anew_and_nothing_tapped_counts(coach: Any) -> None:
    to_the_piece(coach)
    coach.start()
    coach.wind(30)
    coach.type("n")
    coach.type("<space>")
    coach.wind(2)
    coach.type("<ctrl+r>")
    assert coach.session.live.phase == "board"
    coach.wind(2)
    coach.start()
    assert coach.session.live.record.sheet.tallies["Noor"].rounds == ()


def test_a_count_in_called_off_is_back_to_ready(coach: Any) -> None:
    coach.type("<enter>")
    coach.wind(4)
    coach.type("<space>")
    assert coach.session.live.phase == "board"
    coach.wind(2)
    coach.start()
    assert coach.session.live.phase == "running"


def test_a_countdown_gets_a_minute_more_or_less(coach: Any) -> None:
    coach.start()
    assert coach.type("<up>") == "1 minute more"
    coach.wind(90)
    assert coach.session.live.phase == "running"
    assert "only 0:30 is left" in coach.type("<down>")


def test_a_piece_does_not_get_longer_in_the_middle(coach: Any) -> None:
    to_the_piece(coach)
    coach.start()
    assert coach.type("<up>") == "only a countdown gets a minute more or less"


def test_a_segment_can_be_skipped_and_come_back_to(coach: Any) -> None:
    coach.type("<down>")
    assert coach.session.live.record.segment.name == "Turntable"
    coach.wind(2)
    assert coach.type("<down>") == "this is the last segment"
    coach.wind(2)
    coach.type("<up>")
    assert coach.session.live.record.segment.name == "Warm-up"


def test_someone_who_comes_late_is_scored_on_the_class_clock_and_marked(
    coach: Any, tmp_path: Path
) -> None:
    to_the_piece(coach)
    coach.start()
    coach.wind(300)
    coach.session.live.add_person(Person("uri", "Uri", ""))
    coach.wind(100)
    coach.type("u")
    coach.wind(560)
    coach.session.save()
    lanes = results(tmp_path)["pieces"][0]["lanes"]
    uri = next(lane for lane in lanes if lane["athlete"] == "Uri")
    assert uri["late"]
    assert uri["rank"] == 1
    assert "late" in uri["note"]


def test_a_tap_that_arrived_before_the_cap_counts_though_the_screen_was_busy(
    coach: Any,
) -> None:
    to_the_piece(coach)
    coach.start()
    coach.wind(960.4)
    live = coach.session.live
    outcome = live.do(Tap("Noor"), live.clock.now() - 500)
    assert not outcome.refused
    assert live.record.sheet.tallies["Noor"].rounds[0].at == 959_900


def test_thirty_people_run_in_two_heats_and_are_ranked_together(
    open_class: Callable[..., Any], tmp_path: Path
) -> None:
    coach = open_class(*(f"Tram {number}" for number in range(30)))
    to_the_piece(coach)
    for heat in (1, 2):
        live = coach.session.live
        assert live.record.chosen.heat == heat
        coach.start()
        lanes = live.record.sheet.lanes
        assert len(lanes) == 15
        assert len({lane.key for lane in lanes}) == 15
        coach.wind(400)
        coach.type(f"{heat}+{lanes[0].key}")
        coach.wind(560)
        coach.wind(4)
        coach.type("*<enter>")
        coach.wind(2)
    coach.session.save()
    lanes = results(tmp_path)["pieces"][0]["lanes"]
    assert len(lanes) == 30
    assert [(lane["rank"], lane["heat"]) for lane in lanes[:2]] == [(1, 2), (2, 1)]
    assert all(is_piece(segment) for segment in coach.session.live.record.plan.segment[1:])


def test_a_name_that_a_link_has_which_leads_nowhere_is_taken_as_any_other(
    open_class: Callable[..., Any], tmp_path: Path
) -> None:
    (tmp_path / "journals").mkdir()
    (tmp_path / "journals" / "2026-11-24-1830-turntable.jsonl").symlink_to(tmp_path / "gone")
    coach = open_class()
    coach.session.journal.settle(5)
    assert coach.session.journal.path.name == "2026-11-24-1830-turntable-2.jsonl"
    assert coach.session.on_disk.lacking is None
    assert not (tmp_path / "gone").exists()
