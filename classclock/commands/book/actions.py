"""`book`: the actions that there are."""

import argparse

from classclock.commands.shared.command_table import Subcommand, add_commands

ACTIONS = (
    Subcommand("rename", "show somebody under another name", "book.rename"),
    Subcommand("name", "say who a visitor of a class was", "book.name"),
    Subcommand("merge", "two entries are one person; or which may be", "book.merge"),
    Subcommand("mark", "mark somebody for the coach, or keep them off the wall", "book.mark"),
    Subcommand("erase", "forget somebody who asked for it", "book.erase"),
    Subcommand("changes", "what was changed, when, and its number", "book.changes"),
    Subcommand("undo", "take back a change, the newest unless its number is said", "book.undo"),
    Subcommand("import", "take in a club's old spreadsheet", "book.import_"),
    Subcommand("export", "give everything out as CSV and JSON", "book.export"),
    Subcommand("rebuild", "make the book anew from the results files", "book.rebuild"),
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_commands(parser, ACTIONS, title="actions", metavar="ACTION", required=True)
