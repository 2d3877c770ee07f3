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
