"""The club's rule of when to stop: as it was worded when the class was opened, to the results."""

import json
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.book.files.saved_results import saved_for
from classclock.clock.source import WoundSource
from classclock.commands.command_line import main
from classclock.live.replaying import replayed
from classclock.live.session import Session
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.care import STOP
from classclock.plan.cautions import cautions_of
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Care, Club
from classclock.tally.lane_keys import people_named

OWN = "Dizzy: stop, sit down, call Noor."


@pytest.fixture
def session(plan_file: PlanFile, tmp_path: Path, source: WoundSource) -> Session:
    return open_session(
        plan_file,
        people_named(("Ilse",)),
        folder=tmp_path,
        club=Club(care=Care(stop=OWN)),
        source=source,
        sound=False,
    )


def piece(session: Session) -> Any:
    return session.live.record.plan.segment[1]


def test_a_class_keeps_its_words_though_the_club_finds_others(
    session: Session, tmp_path: Path, source: WoundSource
) -> None:
    session.close()
    again, _ = rejoin_session(
        session.journal.path, folder=tmp_path, club=Club(), source=source, sound=False
    )
    again.close()
    assert again.live.record == session.live.record
    assert cautions_of(piece(again), again.live.record.stop)[0] == OWN


def test_the_results_have_it_first_and_a_replay_the_same(
    session: Session, capsys: pytest.CaptureFixture[str], coach_of: Any, source: WoundSource
) -> None:
    coach = coach_of(session, source)
    coach.type("<down>")
    coach.start()
    coach.wind(1000)
    assert session.save()
    session.close()
    found = saved_for(session.journal.path)
    assert found is not None
    assert main(["replay", str(session.journal.path), "--json"]) == 0
    replay = json.loads(capsys.readouterr().out)
    for document in (json.loads(found[0].read_bytes()), replay):
        caution = document["pieces"][0]["caution"]
        assert caution[0] == OWN
        assert STOP not in caution


def test_a_journal_of_before_there_was_such_a_rule_has_none(session: Session) -> None:
    session.close()
    path = session.journal.path
    said = f',"stop":{json.dumps(OWN)}'
    text = path.read_text("utf-8")
    assert text.count(said) == 1
    path.write_text(text.replace(said, ""), "utf-8")
    record = replayed(read_journal(path))
    assert record.stop == ""
    assert OWN not in cautions_of(piece(session), record.stop)
