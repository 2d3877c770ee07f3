"""`athlete`, as it is typed."""

import json

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_an_athletes_page_says_how_often_and_how_well(command_says: CommandSays) -> None:
    page = command_says("athlete", "ilse", "--benchmark", "turntable")
    assert "2 classes, the first on 7 January 2020, the last on 14 January 2020" in page
    assert "turntable    8+3    2020-01-14  as written; 16:00" in page
    assert "front squat  3 reps  70 kg  2020-01-07" in page
    assert "o as written" in page
    values = json.loads(command_says("athlete", "Ilse", "--json"))
    assert (values["classes"], len(values["weeks"])) == (2, 12)


def test_a_name_that_nobody_has_is_answered_with_the_nearest(typed: Typed) -> None:
    said = typed("athlete", "Ilsa")
    assert said.status == 2
    assert said.err == "nobody in the book is called Ilsa: did you mean Ilse?\n"
