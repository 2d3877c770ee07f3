"""What a command line may say."""

import pytest

from classclock.arguments import parser
from classclock.cli import COMMANDS


def test_every_command_can_be_asked_for_alone_and_is_read_as_among_all(
    capsys: pytest.CaptureFixture[str],
) -> None:
    for name in set(COMMANDS) - {"home"}:
        helps = []
        for asked in (None, name):
            with pytest.raises(SystemExit) as left:
                parser(asked).parse_args([name, "--help"])
            assert left.value.code == 0
            helps.append(capsys.readouterr().out)
        assert helps[0] == helps[1]


@pytest.mark.parametrize("names", ["Ilse, Bram, Ilse", "Ilse,ilse"])
def test_two_people_of_one_name_differ_before_the_start(
    names: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        parser("run").parse_args(["run", "turntable", "--athletes", names])
    assert left.value.code == 2
    assert "is there twice: give one an initial" in capsys.readouterr().err
