"""Programs for known parts, and what a second reader of the program finds wrong with them."""

from extractor.part import Groove, Part
from planner import parse_shop, plan_part
from planner.plan import Plan
from postproc import Heading, find_dialect, write_program
from support.independent.metal import before_grooving, chords
from support.independent.parts import TrueGroove, TurnedPart
from support.second_opinion import Insert, Lost, machined, run

CLOSE = {"mm": 0.02, "in": 0.0008}
INSERTS = {
    "mm": ((3, 3.0, 0.1), (4, 1.0, 0.0), (5, 2.0, 0.2)),
    "in": ((3, 0.118, 0.004), (4, 0.03, 0.0), (5, 0.079, 0.004)),
}
ACCEPTED = ("corner-smaller",)


def shop_text(units: str, reference: str, peck: float = 1.0) -> str:
    """A shop file with three inserts whose Z is set to one edge."""
    inch = units == "in"
    speed, out, gap = (400.0, 40.0, 0.1) if inch else (120.0, 900.0, 3.0)
    text = f'units = "{units}"\n[machine]\nmax_rpm = 3000\njaw_gap = {gap}\nstick_out = {out}\n'
    text += f'[material]\nname = "C45 steel"\ncutting_speed = {speed}\nspecific_cutting_force = 2100.0\n'
    for station, width, radius in INSERTS[units]:
        reach, feed, back = (1.5, 0.003, 0.02) if inch else (30.0, 0.08, 0.5)
        text += f"[[tools]]\nstation = {station}\nwidth = {width}\ncorner_radius = {radius}\nmax_depth = {reach}\n"
        text += f'reference = "{reference}"\nfeed = {feed}\npeck = {peck / 25 if inch else peck}\nretract = {back}\n'
    return text


def inserts(units: str, reference: str) -> dict[int, Insert]:
    """The same three inserts as the second reader knows them."""
    return {station: Insert(width, reference) for station, width, _ in INSERTS[units]}


def told(part: TurnedPart) -> Part:
    """The part as a perfect reader would hand it on: grooves outside only."""
    grooves = sorted((g for g in part.grooves if g.where == "outside"), key=lambda g: -g.z_near)
    outline = tuple(chords(part.outside_run(), 6))
    lands = tuple(p for p in outline if not any(_within(p, g) for g in grooves))
    listed = tuple(_groove(number, g) for number, g in enumerate(grooves, 1))
    bore = tuple(chords(part.bore_run(), 6)) if part.bore else None
    return Part(
        units=part.units,
        outer_diameter=part.outer_diameter,
        length=part.length,
        grooves=listed,
        outline=outline,
        lands=lands,
        bore=bore,
    )  # type: ignore[arg-type]


def _within(point: tuple[float, float], groove: TrueGroove) -> bool:
    return groove.z_far - groove.edge_chamfer - 1e-9 <= point[0] <= groove.z_near + groove.edge_chamfer + 1e-9


def _groove(number: int, g: TrueGroove) -> Groove:
    return Groove(
        id=number,
        where="outside",
        shape=g.shapes[0],  # type: ignore[arg-type]
        z_near=g.z_near,
        z_far=g.z_far,
        mouth_diameter=g.mouth_diameter,
        floor_diameter=g.floor_diameter,
        corner_radius=g.corner_radius,
        edge_chamfer=g.edge_chamfer,
        near_land_diameter=g.mouth_diameter,
        far_land_diameter=g.mouth_diameter,
        tolerances=dict(g.tolerances),
    )


def planned(part: Part, reference: str, peck: float = 1.0) -> Plan:
    """The plan with the three inserts; the user answers for corners that they leave sharper than drawn."""
    shop = parse_shop(shop_text(part.units, reference, peck), "shop.toml", part.units)
    return plan_part(part, shop, ACCEPTED)


def written(plan: Plan, dialect: str) -> str:
    return write_program(plan, find_dialect(dialect), Heading("part.dxf", "0" * 64)).text


def faults(text: str, true: TurnedPart, reference: str) -> list[str]:
    """What the second reader has against a program for this part; nothing if it is right and safe."""
    try:
        legs = run(text)
    except Lost as lost:
        return [f"can't be followed: {lost}"]
    cuts, crashes = machined(before_grooving(true), legs, inserts(true.units, reference))
    said, close = list(crashes), CLOSE[true.units]
    grooves = sorted((g for g in true.grooves if g.where == "outside"), key=lambda g: -g.z_near)
    if len(cuts) != len(grooves):
        said.append(f"{len(cuts)} recesses cut, {len(grooves)} drawn")
    for cut, groove in zip(cuts, grooves, strict=False):
        for name in ("z_near", "z_far", "floor_diameter"):
            aim, slack = aimed(groove, name)
            if abs(getattr(cut, name) - aim) > close + slack:
                said.append(f"{name} cut at {getattr(cut, name):.4f}, drawn {getattr(groove, name):.4f}")
    return said


def aimed(groove: TrueGroove, name: str) -> tuple[float, float]:
    """Where a wall or floor may lie: the middle of its limits, and half of their span."""
    if name == "floor_diameter":
        lower, upper = groove.tolerances.get(name, (0.0, 0.0))
        return groove.floor_diameter + (lower + upper) / 2, (upper - lower) / 2
    lower, upper = groove.tolerances.get("width", (0.0, 0.0))
    return getattr(groove, name), max(abs(lower), abs(upper))
