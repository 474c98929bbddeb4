"""Turned parts with holes, flats, keyways and slots, as true solids projected by a kernel, and how they are read.

PYTHONPATH=.:tests:tests/bench python tests/bench/milled_sheets.py [--first SEED] [--count N] [--show] [--keep DIR]

Every sheet has the part once from the side, as a front view, in full or in half section, with hidden lines or without;
some have it from its end too. What is milled or drilled is no ring groove. Of flats seen edge-on nothing but an end
view may tell. Asserts nothing.
"""

import argparse
import collections
import random
from dataclasses import dataclass, replace
from pathlib import Path

from milled_features import FEATURES, Bench
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
)
from OCP.BRepTools import BRepTools_WireExplorer
from OCP.GCPnts import GCPnts_QuasiUniformDeflection
from OCP.gp import gp_Pnt
from OCP.Standard import Standard_Failure
from OCP.TopAbs import TopAbs_FACE, TopAbs_REVERSED, TopAbs_WIRE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Shape
from support.independent import sloppy, views
from support.independent.dress import Dresser
from support.independent.move import Move
from support.independent.offices import NUMBERS, OFFICES, PATTERNS, Case, unseen
from support.independent.outcomes import outcome
from support.independent.parts import TurnedPart
from support.independent.solids import Cuts, Sight, project, quarter_cut, solid
from support.independent.stock import Wishes, random_part
from support.ink import Hatch, Ink, Line, Look
from support.plain_dxf import Style, Writer


def section_faces(shape: TopoDS_Shape, part: TurnedPart, whole: bool) -> list[Hatch]:
    """Where the plane through the axis cuts metal, as hatches."""
    reach = 2 * part.outer_diameter
    low = -reach if whole else 0.0
    corners = [(-part.length - 1, low), (1.0, low), (1.0, reach), (-part.length - 1, reach)]
    maker = BRepBuilderAPI_MakePolygon()
    for x, z in corners:
        maker.Add(gp_Pnt(x, 0, z))
    maker.Close()
    face = BRepBuilderAPI_MakeFace(maker.Wire()).Face()
    cut, found = BRepAlgoAPI_Common(face, shape).Shape(), []
    faces = TopExp_Explorer(cut, TopAbs_FACE)
    while faces.More():
        wires, loops = TopExp_Explorer(faces.Current(), TopAbs_WIRE), []
        while wires.More():
            loops.append(_loop(TopoDS.Wire(wires.Current())))
            wires.Next()
        found.append(Hatch(tuple(loops)))
        faces.Next()
    return found


def _loop(wire: TopoDS_Shape) -> tuple[tuple[float, float, float], ...]:
    edges, loop = BRepTools_WireExplorer(wire), []
    while edges.More():
        edge = edges.Current()
        curve = BRepAdaptor_Curve(edge)
        points = GCPnts_QuasiUniformDeflection(curve, 0.005, curve.FirstParameter(), curve.LastParameter())
        run = [points.Value(k + 1) for k in range(points.NbPoints())]
        if edge.Orientation() == TopAbs_REVERSED:
            run.reverse()
        loop += [(p.X(), p.Z(), 0.0) for p in run[:-1]]
        edges.Next()
    return tuple(loop)


@dataclass(frozen=True)
class Milled:
    """One sheet in words."""

    seed: int
    wishes: Wishes
    features: tuple[str, ...]
    cut: str
    office: str
    hidden: bool
    smooth: bool
    ends: bool
    corner: bool
    hatched: bool
    centred: bool
    measures: bool
    turn: float
    crossings: bool


def recipe(seed: int) -> Milled:
    """The sheet of a seed."""
    rng = random.Random(seed * 71 + 5)
    cut = rng.choice(("none", "none", "full", "half"))
    bored = rng.random() < 0.4
    units = rng.choice(("mm", "mm", "mm", "in"))
    shapes = ("rectangular", "rectangular", "tapered", "vee", "round") if rng.random() < 0.3 else ("rectangular",)
    wishes = Wishes(units, rng.random() < 0.3, shapes, bored, bored and rng.random() < 0.4, rng.random() < 0.1)
    features = tuple(rng.sample(sorted(FEATURES), rng.choice((1, 1, 2))))
    return Milled(
        seed=seed,
        wishes=wishes,
        features=features,
        cut=cut,
        office=rng.choice([name for name in OFFICES if name not in ("blind", "unmarked")]),
        hidden=rng.random() < (0.5 if cut == "none" else 0.2),
        smooth=rng.random() < 0.3,
        ends=rng.random() < 0.4,
        corner=rng.random() < 0.15,
        hatched=rng.random() < 0.85,
        centred=rng.random() < 0.9,
        measures=rng.random() < 0.5,
        turn=rng.choice((0.0, 0.0, 0.0, 90.0)),
        crossings=rng.random() < 0.3,
    )


def sheet(told: Milled) -> Case:
    """Draw the sheet."""
    rng = random.Random(told.seed * 13 + 1)
    part = random_part(told.seed, told.wishes)
    bench, office = Bench(part, rng), OFFICES[told.office]
    looks = office.looks
    shape = solid(part, Cuts())
    for name in told.features:
        for tool in FEATURES[name](bench):
            shape = BRepAlgoAPI_Cut(shape, tool).Shape()
    whole = told.cut == "full"
    seen = quarter_cut(shape, part, whole) if told.cut != "none" else shape
    sight = Sight(looks.outline, Look(looks.edge.layer) if told.smooth else None, looks.hidden if told.hidden else None)
    ink = project(seen, sight)
    if told.crossings:
        ink = sloppy.split_at_crossings(ink)
    if told.cut != "none" and told.hatched:
        ink += [replace(face, role=looks.hatch) for face in section_faces(shape, part, whole)]
    size = max(part.length, part.outer_diameter)
    if told.ends:
        end = project(shape, replace(sight, hidden=None, direction="end"))
        ink += Move((size, 0.0)).all([*end, *_cross_lines(part, looks.centre)])
    if told.corner:
        ink += Move((size, size * 1.8)).all(project(shape, replace(sight, hidden=None, direction="corner")))
    if told.centred:
        ink += views.centre_line(part, looks.centre)
    dresser = Dresser(part, office.words, office.dims, office.sheet, looks.centre, looks.outline, rng)
    ink += dresser.unit_note() + dresser.overall() + (dresser.measures() if told.measures else [])
    header = [("$DWGCODEPAGE", 3, office.codepage), ("$INSUNITS", 70, "4" if part.units == "mm" else "1")]
    style = Style(number=NUMBERS["repr"], header=tuple(header), patterns=PATTERNS)
    text = Writer(style, office.layers).text(Move((0.0, 0.0), told.turn).all(ink))
    shown = (
        part if told.cut != "none" else replace(part, grooves=tuple(g for g in part.grooves if g.where == "outside"))
    )
    return Case(text, {"ANSI_936": "gbk"}.get(office.codepage, "cp1252"), shown, {}, "read", unseen(part, shown))


def _cross_lines(part: TurnedPart, look: Look) -> list[Ink]:
    reach = part.outer_diameter * 0.6
    return [Line((-reach, 0.0), (reach, 0.0), look), Line((0.0, -reach), (0.0, reach), look)]


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--count", type=int, default=40)
    ask.add_argument("--first", type=int, default=0)
    ask.add_argument("--show", action="store_true", help="print every sheet that was not read right")
    ask.add_argument("--keep", type=Path, help="save those sheets here")
    given = ask.parse_args()
    words: collections.Counter[str] = collections.Counter()
    for seed in range(given.first, given.first + given.count):
        told = recipe(seed)
        try:
            case = sheet(told)
        except Standard_Failure as fault:  # the kernel gives up on some cuts
            print(f"  {seed} undrawn: {fault}")
            continue
        found = outcome(case)
        words[found.word] += 1
        if found.word == "right":
            continue
        if given.show:
            more = [name for name in ("hidden", "ends", "hatched") if getattr(told, name)]
            drawn = ", ".join((told.cut, *told.features, *more))
            print(f"  {seed} [{drawn}] {found.word}: {found.why[:400]}", flush=True)
        if given.keep:
            given.keep.mkdir(parents=True, exist_ok=True)
            case.save(str(given.keep / f"{seed}.dxf"))
    total = max(sum(words.values()), 1)
    print(", ".join(f"{word} {count} ({100 * count / total:.1f} %)" for word, count in words.most_common()))


if __name__ == "__main__":
    main()
