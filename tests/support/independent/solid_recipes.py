"""Draws recipes for projected solids at random."""

import random

from support.independent.offices import OFFICES
from support.independent.recipes import ALL_SHAPES
from support.independent.solid_sheets import SolidRecipe
from support.independent.stock import Wishes


def solid_recipe(seed: int) -> SolidRecipe:
    """A solid, how it is seen, and who drew it."""
    rng = random.Random(seed * 47 + 9)
    cut = rng.choice(("none", "none", "none", "full", "half"))
    bored = cut != "none" or rng.random() < 0.3
    units = rng.choice(("mm", "mm", "in"))
    shapes = ALL_SHAPES if rng.random() < 0.4 else ("rectangular",)
    wishes = Wishes(units, rng.random() < 0.2, shapes, bored, bored and rng.random() < 0.3, rng.random() < 0.1)
    return SolidRecipe(
        seed=seed,
        wishes=wishes,
        cut=cut,
        office=rng.choice([name for name in OFFICES if name not in ("blind", "unmarked")]),
        smooth=rng.random() < 0.4,
        hidden=rng.random() < 0.4,
        chord=0.01 if units == "mm" and rng.random() < 0.1 else 0.0,
        straight=rng.random() < 0.8,
        seam=rng.choice((0.0, 37.0, 90.0)),
        holes=rng.random() < 0.2,
        flats=rng.random() < 0.15,
        above=rng.random() < 0.3,
        crossings=rng.random() < 0.4,
        hatched=rng.random() < 0.7,
        centred=rng.random() < 0.85,
        dimensions=rng.random() < 0.7,
        more_views=rng.random() < 0.25,
        turn=rng.choice((0.0, 0.0, 0.0, 90.0, 30.0)),
        shift=(rng.uniform(-300, 300), rng.uniform(-300, 300)),
        insunits=4 if units == "mm" else 1,
        old=rng.random() < 0.3,
        numbers=rng.choice(("repr", "fixed6", "terse")),
    )
