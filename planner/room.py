"""Room for the tool: jaws at one end, the tailstock's centre at the other; with the figure that the setter needs."""

from collections.abc import Iterable, Iterator, Sequence

from extractor.finding import Finding, Level
from extractor.part import Part
from planner.aims import EPS
from planner.fit import UNKNOWN_HOLDER
from planner.increment import Increments
from planner.place import Placed
from planner.shop import Shop
from planner.words import figure, size


def room_findings(part: Part, rows: Sequence[Placed], shop: Shop, increments: Increments) -> tuple[Finding, ...]:
    """What is in the way at either end of the part."""
    return (*jaw_findings(rows, shop, increments), *centre_findings(part, rows, shop, increments))


def centre_findings(part: Part, rows: Sequence[Placed], shop: Shop, increments: Increments) -> Iterator[Finding]:
    """A stop for every row whose insert or holder would meet the tailstock's centre in the front face."""
    across = shop.machine.tailstock
    for row in rows:
        floor, tool = increments.length(row.floor_x), row.tool
        near = increments.length(row.places[0] + row.width)
        body = near + (UNKNOWN_HOLDER[part.units] if tool.holder_near is None else tool.holder_near)
        if (near > EPS and floor < across) or (body > EPS and floor + 2 * tool.max_depth < across):
            yield Finding(
                Level.STOP,
                "tailstock",
                f"Groove {row.grooves[0]} lies so near to the front face that {tool.name} would meet the tailstock's "
                f"centre, {size(across, part.units)} across: cut it without the centre, or with a slimmer one.",
                groove=row.grooves[0],
                unsafe=True,
            )


def jaw_findings(rows: Iterable[Placed], shop: Shop, increments: Increments) -> Iterator[Finding]:
    """A stop for every row whose insert comes too near to the jaws, with how much more must stick out."""
    machine = shop.machine
    if machine.stick_out is None:
        yield Finding(
            Level.CAUTION,
            "stick-out-unknown",
            "The shop file gives no stick_out, so the room to the jaws is not checked: measure it first.",
        )
        return
    for row in rows:
        lowest = increments.length(row.lowest) - (row.tool.holder_far or 0.0)
        short = -machine.stick_out + machine.jaw_gap - lowest
        if short > EPS:
            face = figure(-machine.stick_out + machine.jaw_gap, shop.units)
            yield Finding(
                Level.STOP,
                "jaws",
                f"Groove {row.grooves[-1]} lies too near to the jaws: {row.tool.name} would come to "
                f"Z{figure(lowest, shop.units)} and the jaws with their gap begin at Z{face}; "
                f"stick out {size(short, shop.units)} more.",
                groove=row.grooves[-1],
                unsafe=True,
            )
