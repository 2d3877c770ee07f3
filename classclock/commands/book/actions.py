"""`book`: the actions that there are."""

import argparse

from classclock.commands.shared.command_table import Command, add_commands

ACTIONS = (
    Command("rename", "show somebody under another name", "book.rename"),
    Command("merge", "two entries are one person", "book.merge"),
    Command("mark", "mark somebody for the coach, or keep them off the wall", "book.mark"),
    Command("erase", "forget somebody who asked for it", "book.erase"),
    Command("undo", "take back the newest change", "book.undo"),
    Command("import", "take in a club's old spreadsheet", "book.import_"),
    Command("export", "give everything out as CSV and JSON", "book.export"),
    Command("rebuild", "make the book anew from the results files", "book.rebuild"),
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_commands(parser, ACTIONS, title="actions", metavar="ACTION", required=True)
