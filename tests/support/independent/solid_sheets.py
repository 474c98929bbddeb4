"""Sheets whose view is the projection of a true solid, dressed by an office."""

import itertools
import random
from dataclasses import dataclass, field, replace

from support.independent import sloppy, views
from support.independent.dress import Dresser
from support.independent.move import Move
from support.independent.offices import NUMBERS, OFFICES, PATTERNS, Case, Office, unseen
from support.independent.parts import TurnedPart
from support.independent.solids import Cuts, Sight, project, quarter_cut, solid
from support.independent.stock import Wishes, random_part
from support.ink import Hatch, Ink, Look
from support.plain_dxf import Style, Writer


@dataclass(frozen=True)
class SolidRecipe:
    """One projected sheet in a few words; `more_views` adds the part from its end and from a corner.

    `cut` is "none", "full" or "half"; `smooth` draws rounded corners' edges too. `holes` and `flats` face the viewer
    unless `above`, where they break the silhouette.
    """

    seed: int = 0
    wishes: Wishes = field(default_factory=Wishes)
    cut: str = "none"
    office: str = "english"
    smooth: bool = False
    hidden: bool = False
    chord: float = 0.0
    straight: bool = True
    seam: float = 37.0
    holes: bool = False
    flats: bool = False
    above: bool = False
    crossings: bool = False
    hatched: bool = True
    centred: bool = True
    dimensions: bool = True
    more_views: bool = False
    turn: float = 0.0
    shift: tuple[float, float] = (0.0, 0.0)
    insunits: int | None = 4
    old: bool = False
    numbers: str = "repr"


def solid_case(recipe: SolidRecipe) -> Case:
    """Draw the sheet of a recipe."""
    rng = random.Random(recipe.seed * 11 + 3)
    part = random_part(recipe.seed, recipe.wishes)
    office = OFFICES[recipe.office]
    ink = _projection(part, recipe, office)
    if recipe.crossings:
        ink = sloppy.split_at_crossings(ink)
    if recipe.cut != "none" and recipe.hatched:
        faces = [part.loop()] if recipe.cut == "half" else [part.loop(), views.upside(part.loop())]
        ink += [Hatch((tuple(face),), role=office.looks.hatch) for face in faces]
    if recipe.centred:
        ink += views.centre_line(part, office.looks.centre)
    looks = office.looks
    dresser = Dresser(part, office.words, office.dims, office.sheet, looks.centre, looks.outline, rng)
    ink += dresser.unit_note() + (dresser.overall() if recipe.dimensions else [])
    move = Move(recipe.shift, recipe.turn)
    text = Writer(_style(recipe, office), office.layers).text(move.all(ink))
    encoding = {"ANSI_936": "gbk"}.get(office.codepage, "cp1252")
    seen = _seen(part, recipe)
    told = recipe.centred or recipe.dimensions  # without either, only symmetry says that the part is turned
    expect = "read" if told and not recipe.above else "either"
    return Case(text, encoding, seen, {}, expect, unseen(part, seen))


def _projection(part: TurnedPart, recipe: SolidRecipe, office: Office) -> list[Ink]:
    shape = solid(part, _cuts(part, recipe))
    if recipe.cut != "none":
        shape = quarter_cut(shape, part, recipe.cut == "full")
    smooth = Look(office.looks.edge.layer) if recipe.smooth else None
    hidden = office.looks.hidden if recipe.hidden else None
    sight = Sight(office.looks.outline, smooth, hidden, recipe.chord, recipe.straight)
    ink = project(shape, sight)
    if recipe.more_views:
        size = max(part.length, part.outer_diameter)
        ink += Move((size, 0.0)).all(project(shape, replace(sight, direction="end")))
        ink += Move((size, size * 1.8)).all(project(shape, replace(sight, direction="corner")))
    return ink


def _cuts(part: TurnedPart, recipe: SolidRecipe) -> Cuts:
    """A cross hole or a flat on the longest plain land, well inside it."""
    run = part.outside_run()
    floors = {round(g.floor_diameter / 2, 6) for g in part.grooves}
    lands = [(a, b) for a, b in itertools.pairwise(run) if a[1] == b[1] and round(a[1], 6) not in floors]
    if not lands or not (recipe.holes or recipe.flats):
        return Cuts(seam=recipe.seam)
    front, back = max(lands, key=lambda pair: pair[0][0] - pair[1][0])
    middle, span, radius = (front[0] + back[0]) / 2, front[0] - back[0], front[1]
    holes = ((middle, min(span, radius) * 0.2),) if recipe.holes else ()
    flats = ((middle + span * 0.4, middle - span * 0.4, radius * 0.9),) if recipe.flats else ()
    return Cuts(flats, holes, recipe.above, recipe.seam)


def _style(recipe: SolidRecipe, office: Office) -> Style:
    header = [("$DWGCODEPAGE", 3, office.codepage)]
    header += [("$INSUNITS", 70, str(recipe.insunits))] if recipe.insunits is not None else []
    return Style(old=recipe.old, number=NUMBERS[recipe.numbers], header=tuple(header), patterns=PATTERNS)


def _seen(part: TurnedPart, recipe: SolidRecipe) -> TurnedPart:
    if recipe.cut != "none":
        return part
    return replace(part, grooves=tuple(g for g in part.grooves if g.where == "outside"))
