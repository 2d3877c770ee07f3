"""`demo`: a sample class, its athletes calling by themselves."""

import argparse
from pathlib import Path
from tempfile import TemporaryDirectory

from classclock.clock.source import time_source
from classclock.commands.shared.options import speed, whole_number
from classclock.commands.shared.terminal import needs_a_terminal
from classclock.demo.sample_class import demo_class


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--speed", type=speed, default=10, help="how many times as fast as life (10)"
    )
    parser.add_argument(
        "--seed", type=whole_number, default=1, help="another number, another class (1)"
    )


def do(asked: argparse.Namespace) -> int:
    needs_a_terminal()
    # What is left over of a folder that a virus scanner holds is no reason to end in a fault.
    with TemporaryDirectory(prefix="classclock-demo-", ignore_cleanup_errors=True) as folder:
        session, athletes = demo_class(
            Path(folder), seed=asked.seed, source=time_source(asked.speed), speed=asked.speed
        )
        from classclock.screens.start import show_class  # noqa: PLC0415  textual, once all is in order

        return show_class(session, autopilot=athletes)
