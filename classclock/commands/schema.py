"""`schema`: the plan file's JSON Schema."""

import argparse

from classclock.commands.shared.exit_status import OK
from classclock.commands.shared.printing import print_json
from classclock.plan.reading.schema import plan_schema


def add_arguments(_: argparse.ArgumentParser) -> None:
    """There is nothing to say."""


def do(_: argparse.Namespace) -> int:
    print_json(plan_schema())
    return OK
