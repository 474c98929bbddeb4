"""How often Python looks for garbage that refers to itself: seldom, as a run makes a million things and drops few.

A program of a hundred thousand blocks, or a large drawing, is made of small values that hold no cycles; going over all
of them each time a few more arrive takes longer than making them. What a drawing leaves behind is cleared
away when it is done.
"""

import atexit
import gc
from collections.abc import Iterator
from contextlib import contextmanager

YOUNG = 5_000_000
"""New things after which the newest alone are looked through: more than one drawing of ten thousand grooves holds."""
NEVER = 1_000
"""So many looks at the newest before the older ones are looked through: more than one drawing brings about."""


@contextmanager
def seldom() -> Iterator[None]:
    """Look for garbage seldom while the block runs."""
    before = gc.get_threshold()
    gc.set_threshold(YOUNG, NEVER, NEVER)
    try:
        yield
    finally:
        gc.freeze()
        gc.unfreeze()  # all that came is old now: as new it would be looked through at once
        gc.set_threshold(*before)


def clear() -> None:
    """Clear away what a drawing left behind: all that came since this was last called, and nothing older."""
    gc.collect(1)


def no_last_look() -> None:
    """Leave what this process holds at its end to the system: to look through all of it takes a fifth of a cold run."""
    atexit.register(gc.freeze)


def as_usual() -> None:
    """Leave it to Python, in a process that runs for months."""
    gc.set_threshold(700, 10, 10)
