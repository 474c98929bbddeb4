"""Room for the tool: the jaws, and how a groove lies to them. Figures in every sentence, so that the setter can act."""

from collections.abc import Iterable, Iterator

from extractor.finding import Finding, Level
from planner.aims import EPS
from planner.increment import Increments
from planner.place import Placed
from planner.shop import Shop


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
            yield Finding(
                Level.STOP,
                "jaws",
                f"Groove {row.grooves[-1]} lies too near to the jaws: {row.tool.name} would come to Z{lowest:.3f} and "
                f"the jaws with their gap begin at Z{-machine.stick_out + machine.jaw_gap:.3f}; "
                f"stick out {short:.3f} {shop.units} more.",
                groove=row.grooves[-1],
                unsafe=True,
            )
