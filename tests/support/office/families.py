"""The families by letter: each makes a sheet from a seed."""

from collections.abc import Callable

from support.office import (
    assembled,
    combined,
    customs,
    damaged,
    drawn,
    fronts,
    halves,
    loose,
    notes,
    odd,
    plainly,
    second,
    shown,
    sized,
)
from support.office.truth import Case

FAMILIES: dict[str, Callable[[int], Case]] = {
    "a": fronts.sheet,
    "b": loose.sheet,
    "c": halves.sheet,
    "d": notes.sheet,
    "e": second.sheet,
    "f": assembled.sheet,
    "g": odd.sheet,
    "h": damaged.sheet,
    "i": plainly.sheet,
    "j": combined.sheet,
    "k": drawn.sheet,
    "l": customs.sheet,
    "m": sized.sheet,
    "n": shown.sheet,
}
