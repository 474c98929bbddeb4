"""What stops a row with the insert chosen: jaws at one end, a centre at the other, the turret above, too little power.

Each says the distance or the power that is needed. Another insert may do where one of these is in the way.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from extractor.finding import Finding, Level, stopped
from extractor.limits import EPS
from extractor.part import Groove, Part
from extractor.side import OUTSIDE
from planner.codes import PlanCode
from planner.cuts.moves import Setting
from planner.cuts.place import Placed
from planner.cuts.strokes import cutting_steps
from planner.increment import Increments, dust
from planner.load import tool_power
from planner.shop import Shop
from planner.steps import Arc, Cut, Rapid
from planner.words import figure, numbers, size


def room_findings(setting: Setting, rows: Sequence[Placed]) -> tuple[Finding, ...]:
    """What is in the way at either end of the part and above it, and power that is not there."""
    part, shop, increments = setting.part, setting.shop, setting.increments
    return (
        *jaw_findings(rows, setting),
        *centre_findings(part, rows, shop, increments),
        *turret_findings(part, rows, shop, increments),
        *power_findings(rows, setting),
    )


def hindered(rows: Sequence[Placed], setting: Setting) -> list[Placed]:
    """Those of the rows that can't be cut with the insert chosen."""
    return [row for row in rows if stopped(room_findings(setting, [row]))]


def power_findings(rows: Sequence[Placed], setting: Setting) -> Iterator[Finding]:
    """A stop if the heaviest cut asks for more power than the machine has."""
    heaviest = max(rows, key=lambda row: tool_power(row.tool, setting))
    power, most = tool_power(heaviest.tool, setting), setting.shop.machine.power
    if most and power > most:
        message = (
            f"{heaviest.tool.name} needs about {power:.1f} kW and the machine has {most:.1f} kW: "
            "lower its feed, or the cutting speed."
        )
        yield Finding(Level.STOP, PlanCode.POWER, message, groove=heaviest.grooves[0])


def turret_findings(part: Part, rows: Sequence[Placed], shop: Shop, increments: Increments) -> Iterator[Finding]:
    """A stop if the turret's face would meet the part before the insert reaches the floor, for tools with an overhang.

    The turret is taken to pass over the whole part, because nothing says how wide it is.
    """
    for row in rows:
        tool, floor = row.tool, increments.length(row.floor_across)
        needed = (part.outer_diameter - floor) / 2 + shop.machine.clearance
        if row.side == OUTSIDE and tool.overhang and needed > tool.overhang + dust(part.units):
            message = (
                f"Groove {row.grooves[0]}: with {tool.name} at {figure(floor, part.units)} the turret would meet the "
                f"part's {figure(part.outer_diameter, part.units)}; the insert must stand out "
                f"{size(needed, part.units)} and the shop file says {size(tool.overhang, part.units)}."
            )
            yield Finding(Level.STOP, PlanCode.TURRET, message, groove=row.grooves[0])


def centre_findings(part: Part, rows: Sequence[Placed], shop: Shop, increments: Increments) -> Iterator[Finding]:
    """What a tailstock's centre in the front face asks for: a look at the way home, no cut where it stands."""
    across = shop.machine.tailstock
    if across:
        message = (
            f"A centre of {size(across, part.units)} stands in the front face: see that tool and turret clear it on "
            f"the way to X{figure(shop.machine.home_x, part.units)} Z{figure(shop.machine.home_z, part.units)}."
        )
        yield Finding(Level.CAUTION, PlanCode.TAILSTOCK, message)
    for row in rows:
        if across and row.side.hollow:
            message = (
                f"Groove {row.grooves[0]} lies in the bore, and the tailstock's centre is in its way: cut it without."
            )
            yield Finding(Level.STOP, PlanCode.TAILSTOCK, message, groove=row.grooves[0])
            continue
        near = increments.length(row.places[0] + row.width)
        if near > EPS and increments.length(row.floor_across) < across:
            message = (
                f"Groove {row.grooves[0]}: {row.tool.name} would reach beyond the front face to "
                f"Z{figure(near, part.units)} and meet the tailstock's centre; "
                "cut it without the centre, or with a narrower insert."
            )
            yield Finding(Level.STOP, PlanCode.TAILSTOCK, message, groove=row.grooves[0])


def jaw_findings(rows: Iterable[Placed], setting: Setting) -> Iterator[Finding]:
    """A stop if an insert comes too near the jaws, with how much more must stick out for the worst of them."""
    shop, machine, outside = setting.shop, setting.shop.machine, [row for row in rows if row.side == OUTSIDE]
    comes = {row.grooves: _lowest(row, setting) for row in outside}
    if machine.stick_out is None:
        yield Finding(Level.CAUTION, PlanCode.STICK_OUT_UNKNOWN, _unchecked(outside, comes, shop))
        return
    short = {row.grooves[-1]: -machine.stick_out + machine.jaw_gap - comes[row.grooves] for row in outside}
    near = {number: room for number, room in short.items() if room > dust(shop.units)}
    if near:
        nearest = max(near, key=lambda number: near[number])
        worst = next(row for row in outside if row.grooves[-1] == nearest)
        face, lowest = figure(-machine.stick_out + machine.jaw_gap, shop.units), comes[worst.grooves]
        others = sorted(set(near) - {worst.grooves[-1]})
        too = f" ({numbers(others).lower()} too)" if others else ""
        message = (
            f"Groove {worst.grooves[-1]} lies too near to the jaws{too}: {worst.tool.name} would come to "
            f"Z{figure(lowest, shop.units)} and the jaws with their gap begin at Z{face}; "
            f"stick out {size(max(near.values()), shop.units)} more."
        )
        yield Finding(Level.STOP, PlanCode.JAWS, message, groove=worst.grooves[-1])


def lies_in_jaws(groove: Groove, setting: Setting) -> bool:
    """True for a groove so far behind the face of the jaws that the middle of its floor does, whatever the insert."""
    machine = setting.shop.machine
    if machine.stick_out is None or groove.side != OUTSIDE:
        return False
    return groove.middle < machine.jaw_gap - machine.stick_out


def _lowest(row: Placed, setting: Setting) -> float:
    """The z nearest the chuck that insert or holder comes to, on the way down to a chamfer or a slope too."""
    steps = (step for step in cutting_steps(row, setting) if isinstance(step, Rapid | Cut | Arc))
    places = [step.z - row.reference(0) for step in steps if step.z is not None]
    return setting.increments.length(min([row.lowest, *places])) - (row.tool.holder_far or 0.0)


def _unchecked(outside: Sequence[Placed], comes: Mapping[tuple[int, ...], float], shop: Shop) -> str:
    """That nobody knows where the jaws are, and how far the part has to stand out of them for this plan."""
    words = "The shop file gives no stick_out, so the room to the jaws is not checked"
    if not outside:
        return f"{words}: measure it first."
    last = min(outside, key=lambda row: comes[row.grooves])
    lowest = comes[last.grooves]
    return (
        f"{words}: {last.tool.name} comes to Z{figure(lowest, shop.units)}, so at least "
        f"{size(shop.machine.jaw_gap - lowest, shop.units)} must stand out of the jaws; measure it first."
    )
