"""`away`, as it is typed."""

import json

import pytest

from tests.commands.typed import CommandSays, Typed

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_who_last_came_years_ago_is_named_only_where_all_are_asked_for(
    command_says: CommandSays,
) -> None:
    assert command_says("away").splitlines() == [
        "Nobody last came 3 weeks to a year ago.",
        "2 people last came a year ago or longer: --all names them too.",
    ]
    lines = command_says("away", "--all").splitlines()
    assert lines[0] == "Last here 3 weeks ago or more:"
    assert lines[2].startswith("  Ilse  14 January 2020, ")
    assert lines[3] == "        most often Turntable (2 times), Front Squat (once)"
    values = json.loads(command_says("away", "--all", "--weeks", "10", "--json"))
    assert [one["name"] for one in values["away"]] == ["Ilse", "Bram"]
    assert values["weeks"] == 10


@pytest.mark.parametrize("weeks", ["0", "-3", "three", "2.5", "٣", "521", "9" * 5000])
def test_what_is_no_number_of_weeks_is_answered_with_how_to_write_it(
    typed: Typed, weeks: str
) -> None:
    said = typed("away", f"--weeks={weeks}")
    assert said.status == 2
    assert "is no number of weeks: write a whole one, 1 to 520" in said.err
