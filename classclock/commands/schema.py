"""`schema`: the plan file's JSON Schema."""

import argparse

from classclock.commands.shared.exit_status import OK
from classclock.commands.shared.options import add_club
from classclock.commands.shared.printing import print_json
from classclock.plan.reading.schema import plan_schema


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)  # as behind every command, though a plan file is the same in every club


def do(_: argparse.Namespace) -> int:
    print_json(plan_schema())
    return OK
