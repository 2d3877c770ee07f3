"""What a command line may say."""

import pytest

from classclock.commands.arguments import parser
from classclock.commands.command_line import COMMANDS


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


def test_a_command_says_first_what_it_does(capsys: pytest.CaptureFixture[str]) -> None:
    for name, words in (
        ("rehearse", "Play a file of keys through one piece of a plan: at once, with no screen"),
        ("edit", "Change a plan."),
        ("book", "What is remembered"),
    ):
        with pytest.raises(SystemExit):
            parser().parse_args([name, "--help"])
        said = capsys.readouterr().out
        assert words in " ".join(said.partition("\n\n")[2].split())[: len(words)]
    with pytest.raises(SystemExit):
        parser().parse_args(["--help"])
    said = " ".join(capsys.readouterr().out.split())
    assert " rehearse play a file of keys through one piece, at once, no screen " in said


@pytest.mark.parametrize("names", ["Ilse, Bram, Ilse", "Ilse,ilse"])
def test_two_people_of_one_name_differ_before_the_start(
    names: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        parser("run").parse_args(["run", "turntable", "--athletes", names])
    assert left.value.code == 2
    assert "is there twice: give one an initial" in capsys.readouterr().err
