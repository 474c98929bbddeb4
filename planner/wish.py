"""What an insert that the shop doesn't have would save, where the ones it has take many plunges.

Of the built-in list of standard widths, the insert that saves most is named, at the feed of the one in use now.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from extractor.finding import Finding, Level
from extractor.part import Groove, Units
from planner.choose import WORTH_A_BATCH, Choice, seconds_for
from planner.codes import PlanCode
from planner.cuts.moves import Setting
from planner.fit import Fit
from planner.settings.builtin import built_in_tools
from planner.shop import Tool
from planner.words import numbers, size, spell

# Share of a piece's time from which another insert is worth its price, and seconds of it where nobody says how many
# pieces are made (common practice, no source).
WORTH_BUYING, LEAST_SECONDS = 0.2, 30.0
# Kinds of grooves that are looked at; more are too many for one insert to matter.
MOST_KINDS = 50
Holds = Callable[[Groove, Tool], Fit | None]
"""The fit of an insert in a groove, None where it has none that is as good in corners, power and stiffness."""


def wished(choice: Choice, grooves: Sequence[Groove], setting: Setting, holds: Holds) -> tuple[Finding, ...]:
    """A note that names the insert that would save most, if the saving is worth mentioning."""
    if "tools" in setting.shop.built_in:
        return ()
    kinds = _kinds([groove for groove in grooves if _many(choice.fits[groove.id])], choice)
    found = [_saved(tool, kinds, choice, setting, holds) for tool in _candidates(kinds, setting.part.units)]
    saved, tool, who = max(found, key=lambda one: one[0], default=(0.0, None, []))
    pieces = setting.shop.machine.batch
    enough = saved * pieces >= WORTH_A_BATCH if pieces else saved >= LEAST_SECONDS
    if tool is None or not enough or saved < WORTH_BUYING * choice.seconds:
        return ()
    units = setting.part.units
    deep = max(groove.depth for groove in grooves if groove.id in who)
    told = f"{spell(saved * pieces)} a batch of {pieces}" if pieces else f"{spell(saved)} a piece"
    message = (
        f"{numbers(who)}: an insert {size(tool.width, units)} wide that reaches {size(deep, units)}, which the shop "
        f"file doesn't have, would save about {told} at the same feed."
    )
    return (Finding(Level.NOTE, PlanCode.INSERT_SAVES, message, groove=who[0]),)


def _many(fit: Fit) -> bool:
    """True if a groove takes several plunges of an insert that a wider one might spare."""
    return fit.plunges > 1 and not fit.path and fit.tool.edge == "square"


def _kinds(grooves: Sequence[Groove], choice: Choice) -> list[list[Groove]]:
    """The grooves that are alike in all but their place, the most first."""
    kinds: dict[object, list[Groove]] = {}
    for groove in grooves:
        alike = replace(groove, id=1, z_near=groove.width, z_far=0.0, places=()) if groove.side.axial else groove
        kinds.setdefault(repr((alike, choice.fits[groove.id].tool.name)), []).append(groove)
    return sorted(kinds.values(), key=len, reverse=True)[:MOST_KINDS]


def _candidates(kinds: Sequence[Sequence[Groove]], units: Units) -> list[Tool]:
    """The built-in inserts for these sides of the part, under names that no shop has."""
    sides = {some[0].where for some in kinds}
    inserts = [tool for tool in built_in_tools(units) if tool.where in sides]
    return [replace(tool, station=100 + tool.station, offset=100 + tool.station) for tool in inserts]


def _saved(
    tool: Tool, kinds: Sequence[Sequence[Groove]], choice: Choice, setting: Setting, holds: Holds
) -> tuple[float, Tool, list[int]]:
    """Seconds of a piece that an insert saves, and the grooves on which it does."""
    saved, who = 0.0, list[int]()
    for some in kinds:
        now = choice.fits[some[0].id]
        own = replace(tool, feed=now.tool.feed, peck=now.tool.peck, retract=now.tool.retract)
        fit = holds(some[0], replace(own, cutting_speed=now.tool.cutting_speed))
        less = 0.0 if fit is None else seconds_for(some[0], now, setting) - seconds_for(some[0], fit, setting)
        if less > 0:
            saved += less * len(some)
            who += [groove.id for groove in some]
    # It comes in the place of another where that has nothing left to do.
    spared = {choice.fits[number].tool.name for number in who} - {
        fit.tool.name for number, fit in choice.fits.items() if number not in who
    }
    return saved - (0.0 if spared else setting.shop.machine.tool_change), tool, sorted(who)
