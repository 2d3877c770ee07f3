import json
import os
import shutil
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from classclock.book.files.held_file import JournalInUseError, in_use
from classclock.book.files.journal import JournalUnreadableError, Lost, read_journal
from classclock.book.files.saved_results import saved_for
from classclock.book.files.unfinished import unfinished
from classclock.clock.source import MS, WoundSource
from classclock.commands.command_line import main
from classclock.live import session_opening
from classclock.live.replaying import replayed
from classclock.live.session_opening import rejoin_session, rejoined_words
from classclock.machine.whole_file import HALF
from classclock.plan.settings.club import Club

BOOT = "boot before the power cut"


@pytest.fixture(autouse=True)
def _one_machine(monkeypatch: pytest.MonkeyPatch, source: WoundSource) -> None:
    """The machine's raw clock is the wound one, so that time away is wound too."""
    monkeypatch.setattr(session_opening, "raw_now", source.now)
    monkeypatch.setattr(session_opening, "boot_id", lambda: BOOT)


def in_the_piece(coach: Any) -> None:
    coach.type("<down>")
    coach.start()
    coach.wind(60)
    coach.type("n")
    coach.wind(10)
    coach.type("5b")


def killed(coach: Any, tmp_path: Path) -> Path:
    """The journal as a killed process leaves it: nothing closed, the lock gone."""
    folder = tmp_path / "rejoined" / "journals"
    folder.mkdir(parents=True)
    return Path(shutil.copy(coach.session.journal.path, folder))


def rejoin(path: Path, source: WoundSource) -> Any:
    session, _ = rejoin_session(
        path, folder=path.parent.parent, club=Club(), source=source, sound=False
    )
    return session


def test_a_killed_class_comes_back_with_the_same_sheet_and_the_right_clock(
    coach: Any, source: WoundSource, tmp_path: Path
) -> None:
    in_the_piece(coach)
    path = killed(coach, tmp_path)
    before = coach.session.live.record
    coach.wind(45)
    session = rejoin(path, source)
    assert session.live.record == before
    now = session.live.clock.now()
    assert session.live.record.sheet.clock.elapsed(now) == 115_000
    assert not session.check_clock
    assert session.live.phase == "running"


def test_nothing_is_counted_twice_and_counting_goes_on(
    coach: Any, source: WoundSource, tmp_path: Path
) -> None:
    in_the_piece(coach)
    path = killed(coach, tmp_path)
    coach.wind(45)
    session = rejoin(path, source)
    session.key("n", 0.0)
    session.close()
    rounds = replayed(read_journal(path)).sheet.tallies["Noor"].rounds  # type: ignore[union-attr]
    assert [done.at for done in rounds] == [60_000, 115_000]


def test_after_a_reboot_the_time_of_day_serves_and_the_coach_is_told_to_check(
    coach: Any, source: WoundSource, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_the_piece(coach)
    path = killed(coach, tmp_path)
    monkeypatch.setattr(session_opening, "boot_id", lambda: "another boot")
    monkeypatch.setattr(session_opening, "raw_now", lambda: 7)
    fresh = WoundSource(start=0, wall=source.wall() + timedelta(minutes=2))
    session = rejoin(path, fresh)
    assert session.check_clock
    now = session.live.clock.now()
    assert session.live.record.sheet.clock.elapsed(now) == 190_000


def test_if_the_cap_passed_meanwhile_the_class_comes_back_at_the_settle(
    coach: Any, source: WoundSource, tmp_path: Path
) -> None:
    in_the_piece(coach)
    path = killed(coach, tmp_path)
    coach.wind(3600)
    session = rejoin(path, source)
    assert session.live.phase == "over"
    session.key("7", 0.0)
    session.key("n", 0.0)
    assert session.live.record.sheet.tallies["Noor"].odd == 7


def test_a_class_that_runs_in_another_window_is_refused(coach: Any, source: WoundSource) -> None:
    in_the_piece(coach)
    with pytest.raises(JournalInUseError, match="another window"):
        rejoin(coach.session.journal.path, source)


def test_only_todays_classes_that_were_cut_off_are_offered(
    open_class: Callable[..., Any], source: WoundSource, tmp_path: Path
) -> None:
    coach = open_class()
    in_the_piece(coach)
    folder = coach.session.journal.path.parent
    assert unfinished(folder, source.wall()) == ()  # it is running
    coach.session.close()
    written_at(coach.session.journal.path, source.wall())
    assert [journal.path.parent for journal in unfinished(folder, source.wall())] == [folder]
    assert unfinished(folder, source.wall() + timedelta(hours=13)) == ()


def test_the_latest_class_is_offered_first(
    open_class: Callable[..., Any], source: WoundSource
) -> None:
    paths = []
    for minutes in (0, 20, 10):
        coach = open_class()
        coach.session.close()
        paths.append(coach.session.journal.path)
        written_at(paths[-1], source.wall() - timedelta(minutes=minutes))
    offered = [journal.path for journal in unfinished(paths[0].parent, source.wall())]
    assert offered == [paths[0], paths[2], paths[1]]


def test_a_journal_that_was_never_written_to_its_end_is_no_class_of_its_own(
    coach: Any, source: WoundSource, tmp_path: Path
) -> None:
    """Where a power cut left it beside the journal whose place it was to take."""
    in_the_piece(coach)
    path = killed(coach, tmp_path)
    shutil.copy(path, path.with_name(f"{HALF}{path.name}"))
    assert [one.path for one in unfinished(path.parent, source.wall())] == [path]


def test_an_old_journal_is_not_even_read(source: WoundSource, tmp_path: Path) -> None:
    journal = tmp_path / "old.jsonl"
    journal.write_bytes(b"")
    written_at(journal, source.wall() - timedelta(hours=13))
    with patch("classclock.book.files.unfinished.read_journal") as read:
        assert unfinished(tmp_path, source.wall()) == ()
        read.assert_not_called()


def written_at(path: Path, moment: datetime) -> None:
    os.utime(path, (moment.timestamp(), moment.timestamp()))


def test_a_class_closed_by_the_coach_is_not_offered_again(
    open_class: Callable[..., Any], source: WoundSource
) -> None:
    coach = open_class()
    in_the_piece(coach)
    coach.wind(900)
    coach.wind(5)
    coach.type("*<enter>")
    assert coach.session.live.phase == "closed"
    coach.session.close()
    assert unfinished(coach.session.journal.path.parent, source.wall()) == ()


def test_replay_says_that_the_scores_equal_the_saved_ones(
    coach: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    in_the_piece(coach)
    coach.wind(900)
    coach.session.save()
    path = coach.session.journal.path
    assert main(["replay", str(path)]) == 0
    assert "The same as saved in 2026-11-24-1830-turntable.json" in capsys.readouterr().out


def test_replay_says_where_saved_scores_were_altered(
    coach: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    in_the_piece(coach)
    coach.wind(900)
    coach.session.save()
    path = coach.session.journal.path
    found = saved_for(path)
    assert found is not None
    file, _ = found
    values = json.loads(file.read_bytes())
    values["pieces"][0]["lanes"][0]["rounds"] = 99
    file.write_text(json.dumps(values), "utf-8")
    assert main(["replay", str(path)]) == 1
    assert "Noor: rounds 1, saved was 99" in capsys.readouterr().out


def test_a_hold_undone_moves_every_tap_to_its_true_moment_on_replay_too(
    coach: Any, source: WoundSource, tmp_path: Path
) -> None:
    in_the_piece(coach)
    coach.type("<space>")
    coach.wind(20)
    coach.type("n")
    assert coach.session.live.record.sheet.tallies["Noor"].rounds[-1].at == 70_000
    coach.wind(5)
    coach.type("=")
    coach.wind(2)
    coach.type("=")
    live = coach.session.live.record
    assert live.sheet.tallies["Noor"].rounds[-1].at == 90_000
    assert replayed(read_journal(coach.session.journal.path)) == live


def test_the_moments_in_the_journal_stand_beside_the_time_of_day(
    coach: Any, source: WoundSource
) -> None:
    in_the_piece(coach)
    lines = [json.loads(line) for line in coach.session.journal.path.read_text().splitlines()]
    assert lines[0]["anchor"]["boot"] == BOOT
    assert all(datetime.fromisoformat(line["wall"]).tzinfo for line in lines[1:])
    tap = next(line for line in lines if line.get("event") == "Tapped")
    assert tap["at"] == 72_000
    assert tap["wall"] == "2026-11-24T18:31:12.000+01:00"
    assert source.now() == (5_000 + 82_000) * MS


# -- when the disk had refused, or another place was taken ----------------------------------


def test_a_rejoin_that_fails_lets_the_journal_go_and_leaves_it_as_it_was(
    coach: Any, source: WoundSource, tmp_path: Path
) -> None:
    in_the_piece(coach)
    path = killed(coach, tmp_path)
    lines = path.read_bytes().splitlines(keepends=True)
    tap = json.loads(lines[-1])
    for broken in (b"{oops}\n", json.dumps({**tap, "n": 999}).encode() + b"\n"):
        path.write_bytes(b"".join((*lines[:2], broken, *lines[2:])))
        before = path.read_bytes()
        with pytest.raises(JournalUnreadableError):
            rejoin(path, source)
        assert not in_use(path)
        assert path.read_bytes() == before
    unknown = b'title = \\"Depot' if b'title = \\"Depot' in lines[1] else b"title"
    path.write_bytes(b"".join((lines[0], lines[1].replace(unknown, b"tit", 1), *lines[2:])))
    before = path.read_bytes()
    with pytest.raises(ValueError, match="its plan can't be read"):
        rejoin(path, source)
    assert not in_use(path)
    assert path.read_bytes() == before


def test_what_was_lost_is_said_when_a_class_is_rejoined_and_replayed_with_whom_to_ask(
    coach: Any, source: WoundSource, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    in_the_piece(coach)
    path = killed(coach, tmp_path)
    ids = {person.name: person.id for person in coach.session.live.record.people}
    since, wall = "2026-11-24T18:31:30.000+01:00", "2026-11-24T18:35:00.000+01:00"
    with path.open("ab") as file:
        file.write(Lost(3, (ids["Noor"], ids["Ilse"]), since, wall).line())
    said = "3 entries were lost from 18:31 to 18:35, the disk had refused them: ask Ilse, Noor"
    assert main(["replay", str(path)]) == 1
    printed = capsys.readouterr()
    assert said in printed.err
    assert "wasn't closed" not in printed.out
    session, journal = rejoin_session(
        path, folder=path.parent.parent, club=Club(), source=source, sound=False
    )
    assert rejoined_words(journal, session.live.record) == f"rejoined; {said}"
    session.close()
    assert main(["replay", str(path), "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["journal"] == path.name


def test_replay_says_that_a_class_was_not_closed_and_where_its_journal_ends(
    coach: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    in_the_piece(coach)
    path = coach.session.journal.path
    assert main(["replay", str(path)]) == 0
    assert "wasn't closed" not in capsys.readouterr().out, "it runs"
    coach.session.close()
    assert main(["replay", str(path)]) == 0
    said = "The class wasn't closed: its journal ends at 18:31:22."
    assert said in capsys.readouterr().out
    with path.open("ab") as file:
        number = coach.session.journal.number
        closed = {"n": number, "event": "ClassClosed", "wall": "2026-11-24T18:59:00+01:00", "at": 9}
        file.write(json.dumps(closed).encode() + b"\n")
    assert main(["replay", str(path)]) == 0
    assert "wasn't closed" not in capsys.readouterr().out


def test_replay_says_that_what_is_settled_in_the_journal_was_saved_as_provisional(
    coach: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    in_the_piece(coach)
    coach.wind(900)
    for keys in ("0n", "0i"):
        coach.type(keys)
        coach.wind(2)
    coach.session.save()
    coach.type("*<enter>")
    assert coach.session.live.record.sheet.settled or coach.session.live.record.closed
    assert main(["replay", str(coach.session.journal.path)]) == 1
    assert "Turntable: settled in the journal, saved was provisional" in capsys.readouterr().out


def test_a_class_that_went_on_in_another_place_is_rejoined_there_and_not_from_its_old_journal(
    coach: Any, source: WoundSource, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    in_the_piece(coach)
    old = coach.session.journal.path
    for place in ("stick", "another stick"):
        coach.session.save_elsewhere(tmp_path / place)
        coach.type("i")
        coach.wind(2)
    coach.session.close()
    new = tmp_path / "another stick" / "journals" / old.name
    for path in (old, new):
        written_at(path, source.wall())
    assert [journal.path for journal in unfinished(old.parent, source.wall())] == [new]
    with pytest.raises(ValueError, match=f"classclock resume {tmp_path / 'stick' / 'journals'}"):
        rejoin(old, source)
    assert not in_use(old)
    assert main(["replay", str(old)]) == 1
    assert f"this class went on in {tmp_path / 'stick'}" in capsys.readouterr().err
    session = rejoin(new, source)
    assert session.live.record == coach.session.live.record
    session.close()
