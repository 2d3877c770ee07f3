"""`book changes`, as it is typed."""

import json
import re
from pathlib import Path

import pytest

from tests.commands.typed import CommandSays

pytestmark = pytest.mark.usefixtures("club_with_classes")


def test_each_change_has_its_number_its_day_and_its_words(
    command_says: CommandSays, old_scores: Path
) -> None:
    assert "Nothing was changed yet" in command_says("book", "changes")
    command_says("book", "rename", "Ilse", "Ilse V.")
    command_says("book", "import", str(old_scores))
    command_says("book", "merge", "Bram", "Ilse V.")
    command_says("book", "undo", "1")
    lines = command_says("book", "changes").splitlines()
    day = r"\d{4}-\d\d-\d\d \d\d:\d\d"
    for line, words in zip(
        lines,
        (
            rf"1  {day}  the name Ilse V\. \(taken back {day}\)",
            rf"2  {day}  the import of old\.csv, 3 scores",
            rf"3  {day}  the merge of Bram into Ilse V\.",
            r"`classclock book undo NUMBER` takes one back\.",
        ),
        strict=True,
    ):
        assert re.fullmatch(words, line), line


def test_each_can_be_taken_back_by_the_number_that_the_list_says(
    command_says: CommandSays, old_scores: Path
) -> None:
    before = command_says("chart")
    command_says("book", "import", str(old_scores))
    command_says("book", "mark", "Ilse", "newcomer")
    command_says("book", "rename", "Bram", "Abram")
    command_says("book", "merge", "Odell", "Ilse")
    listed = json.loads(command_says("book", "changes", "--json"))
    assert [one["change"] for one in listed] == ["import", "mark", "rename", "merge"]
    for number in (2, 1, 4, 3):
        command_says("book", "undo", str(number))
    assert command_says("chart") == before
    assert "marked" not in command_says("athlete", "Ilse")
    listed = json.loads(command_says("book", "changes", "--json"))
    assert all(one["taken_back"] for one in listed)


def test_an_erasure_is_listed_without_a_name_and_cant_be_taken_back(
    command_says: CommandSays,
) -> None:
    command_says("book", "erase", "Bram", "--yes")
    said = command_says("book", "changes")
    assert "somebody was erased, for good" in said
    assert "Bram" not in said
    assert "takes one back" not in said
