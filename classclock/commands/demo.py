"""`demo`: a sample class, its athletes calling by themselves."""

import argparse

from classclock.clock.source import time_source
from classclock.commands.shared.options import speed
from classclock.demo.sample_class import demo_class


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--speed", type=speed, default=10, help="how many times as fast as life (10)"
    )
    parser.add_argument("--seed", type=int, default=1, help="another number, another class (1)")


def do(asked: argparse.Namespace) -> int:
    session, athletes = demo_class(
        seed=asked.seed, source=time_source(asked.speed), speed=asked.speed
    )
    from classclock.screens.start import show_class  # noqa: PLC0415  textual, once all is in order

    return show_class(session, autopilot=athletes)
