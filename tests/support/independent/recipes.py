"""Draws recipes at random, family by family, and boils a failing one down to what makes it fail."""

import random
from collections.abc import Callable
from dataclasses import replace

from support.independent.offices import EXTRAS, MESS, NUMBERS, OFFICES, VIEWS, Recipe
from support.independent.stock import Wishes

ALL_SHAPES = ("rectangular", "rectangular", "vee", "round", "tapered")
BORED = ("section", "sectionpath", "halfsection")
EVEN_SCALES = (2.0, 5.0, 0.5)


def _wishes(rng: random.Random, view: str, shapes: bool = True) -> Wishes:
    bored = view in BORED or rng.random() < 0.25
    return Wishes(
        units=rng.choice(("mm", "mm", "in")),
        plain=rng.random() < 0.3,
        shapes=ALL_SHAPES if shapes and rng.random() < 0.4 else ("rectangular",),
        bored=bored,
        inside=bored and rng.random() < 0.3,
        face=rng.random() < 0.15,
        grain=rng.choice((0.0, 0.0, 0.001)) if rng.random() < 0.5 else 0.0,
    )


def base(seed: int) -> Recipe:
    """A view by one office and nothing more, its header right."""
    rng = random.Random(seed * 13 + 5)
    view = rng.choice(VIEWS)
    wishes = _wishes(rng, view)
    return Recipe(
        seed=seed,
        wishes=wishes,
        view=view,
        office=rng.choice([name for name in OFFICES if name not in ("blind", "unmarked")]),
        insunits=4 if wishes.units == "mm" else 1,
        old=rng.random() < 0.4,
        numbers=rng.choice(("repr", "fixed6", "exponent", "terse")),
        shift=(rng.uniform(-500, 500), rng.uniform(-500, 500)) if rng.random() < 0.6 else (0.0, 0.0),
    )


def dressed(seed: int) -> Recipe:
    """A sheet with some of what offices draw around a view."""
    rng = random.Random(seed * 17 + 1)
    safe = [e for e in EXTRAS if e not in ("stray", "thread", "hatchlines")]
    return replace(base(seed), extras=frozenset(rng.sample(safe, rng.randint(1, 6))))


def messy(seed: int) -> Recipe:
    """An untidy view."""
    rng = random.Random(seed * 19 + 2)
    return replace(base(seed), mess=frozenset(rng.sample(MESS, rng.randint(1, 4))))


def placed(seed: int) -> Recipe:
    """A view upright, turned round or at an angle."""
    rng = random.Random(seed * 23 + 3)
    turn = rng.choice((90.0, 90.0, 0.0, 0.0, 30.0, 45.0, 12.5))
    front = "right"
    if turn in (0.0, 90.0) and rng.random() < 0.6:
        front = "left" if turn == 0.0 else "bottom"
    return replace(base(seed), turn=turn, front=front)


def unmarked(seed: int) -> Recipe:
    """A view whose centre line is missing or looks like any other line."""
    rng = random.Random(seed * 29 + 4)
    return replace(base(seed), office=rng.choice(("blind", "unmarked")), extras=frozenset({"overall"}))


def united(seed: int) -> Recipe:
    """A sheet whose header says too little or the wrong thing of the units."""
    rng = random.Random(seed * 31 + 5)
    extras = frozenset(rng.sample(("title", "overall", "measures"), rng.randint(0, 2)))
    note = rng.random() < 0.6
    return replace(base(seed), insunits=rng.choice((None, 0, 6)), unit_note=note, extras=extras)


def toleranced(seed: int) -> Recipe:
    """A sheet with deviations in its dimension texts."""
    rng = random.Random(seed * 37 + 6)
    view = rng.choice(("side", "outline", "half", "halfsection"))
    wishes = _wishes(rng, view, shapes=False)
    chosen = replace(base(seed), view=view, tolerances=True, wishes=wishes, insunits=4 if wishes.units == "mm" else 1)
    return replace(chosen, extras=frozenset({"overall", "measures"}))


def scaled(seed: int) -> Recipe:
    """A view drawn larger or smaller than the part, the user saying so."""
    rng = random.Random(seed * 41 + 7)
    return replace(base(seed), size=rng.choice(EVEN_SCALES), numbers="repr")


def hard(seed: int) -> Recipe:
    """What lies on the view itself: hatching as loose lines, thread lines, marks, loose dimensions, a helper line."""
    rng = random.Random(seed * 53 + 10)
    sheet = base(seed)
    names = ["thread", "texture", "exploded", "detail", "leaders", "ontop", "stray"]
    chosen = set(rng.sample(names, rng.randint(1, 3)))
    if sheet.view in ("section", "halfsection") or (sheet.view.endswith("half") and rng.random() < 0.4):
        chosen.add("hatchlines")
    return replace(sheet, extras=frozenset(chosen))


def everything(seed: int) -> Recipe:
    """All at once."""
    rng = random.Random(seed * 43 + 8)
    mixed = replace(dressed(seed), mess=messy(seed).mess)
    if mixed.wishes.units == "mm":  # four places are too coarse for inches
        mixed = replace(mixed, numbers=rng.choice(tuple(NUMBERS)))
    return replace(mixed, turn=placed(seed).turn, front=placed(seed).front, tolerances=rng.random() < 0.3)


FAMILIES: dict[str, Callable[[int], Recipe]] = {
    family.__name__: family
    for family in (base, dressed, messy, placed, unmarked, united, toleranced, scaled, hard, everything)
}


def boiled_down(recipe: Recipe, fails: Callable[[Recipe], bool]) -> Recipe:
    """Leave words out of a failing recipe as long as it still fails."""
    changed = True
    while changed:
        changed = False
        for smaller in _smaller(recipe):
            if smaller != recipe and fails(smaller):
                recipe, changed = smaller, True
                break
    return recipe


def _smaller(recipe: Recipe) -> list[Recipe]:
    wishes = recipe.wishes
    tries = [replace(recipe, extras=recipe.extras - {extra}) for extra in sorted(recipe.extras)]
    tries += [replace(recipe, mess=recipe.mess - {mess}) for mess in sorted(recipe.mess)]
    plainer = {"turn": 0.0, "office": "english", "old": False, "numbers": "repr", "shift": (0.0, 0.0), "size": 1.0}
    tries += [replace(recipe, **{name: value}) for name, value in plainer.items()]
    tries += [replace(recipe, view="side"), replace(recipe, tolerances=False), replace(recipe, front="right")]
    for change in ({"bored": False}, {"inside": False}, {"face": False}, {"shapes": ("rectangular",)}, {"steps": 1}):
        tries.append(replace(recipe, wishes=replace(wishes, **change)))
    tries += [replace(recipe, wishes=replace(wishes, plain=True)), replace(recipe, wishes=replace(wishes, grain=0.0))]
    return tries
