"""When Python looks for memory to give back: what it walks, no key may wait for."""

import gc


def little_and_often() -> None:
    """Leave alone what is loaded by now, and look at the rest in small steps.

    A look through everything that a class has loaded takes 20 ms, and a key can fall into it.
    """
    gc.freeze()
    gc.set_threshold(700, 10, 10)


def before_keys_come() -> None:
    """Give back what an earlier class held: the last whole look before this one is over."""
    gc.collect()
    little_and_often()


def all_again() -> None:
    """A class is over: what it held is to go, so everything is looked at again."""
    gc.unfreeze()
