"""From a drawn sheet to a written program through the command line, and the second reader's word on it."""

from dataclasses import replace
from pathlib import Path

from support.door import make
from support.independent.offices import Case, Recipe
from support.independent.programs import ACCEPTED, faults, shop_text
from support.independent.recipes import FAMILIES

DIALECTS = ("two-block", "one-block", "plunge")


def plain_grooves(family: str, seed: int) -> Recipe:
    """A recipe of a family with square outside grooves alone, which every shop can plan."""
    recipe = FAMILIES[family](seed)
    wishes = replace(recipe.wishes, shapes=("rectangular",), face=False, inside=False)
    return replace(recipe, wishes=wishes)


def made(case: Case, dialect: str, reference: str, folder: Path) -> tuple[str, list[str]]:
    """What `make` came to: "made" with the second reader's faults, or "refused" with the codes of the stops."""
    assert case.part is not None
    drawing, shop, out = folder / "ring.dxf", folder / "shop.toml", folder / dialect
    case.save(str(drawing))
    shop.write_text(shop_text(case.part.units, reference), encoding="utf-8")
    words = ["--dialect", dialect, "--accept", ",".join(ACCEPTED)]
    for name in ("front", "scale"):
        words += [f"--{name}", str(case.options[name])] if name in case.options else []
    answer = make(drawing, shop, out, *words)
    if answer.status:
        assert not (out / "ring.nc").exists(), "a refused drawing left a program"
        return "refused", answer.stops()
    assert answer.document[0]["verification"]["agree"]
    return "made", faults((out / "ring.nc").read_text(encoding="ascii"), case.part, reference)
