"""So many walls of one club, each in a terminal that takes what it is sent: for `beside.py`."""

import select
import sys
from contextlib import ExitStack

from benchmarks.window import Window


def main(count: int, club: str) -> None:
    with ExitStack() as opened:
        wall = ("classclock", "wall", "--club", club)
        walls = [opened.enter_context(Window(*wall)) for _ in range(count)]
        while True:
            for one in select.select(walls, [], [])[0]:
                one.take()


if __name__ == "__main__":
    main(int(sys.argv[1]), sys.argv[2])
