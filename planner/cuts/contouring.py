"""Which insert can follow a recess with its edge, and rows of like recesses that are cut that way.

Fit and placing work out the same contour from the same aims, so what fits is what gets planned.
"""

from collections.abc import Sequence
from dataclasses import replace

from extractor.limits import Aims, aims_of, common_aim
from extractor.part import Groove, Part, Units
from planner.counts import missed
from planner.cuts.contour import Bounds, Contour, Obstacle, contour_of
from planner.cuts.form import FORMS
from planner.cuts.ground import Ground, ground_of
from planner.cuts.hollow import Hollow, hollow_of
from planner.cuts.place import Placed, common_floor, placed_rows, spot_of
from planner.cuts.widen import Layout, common_count
from planner.fit import Fit, Misfit, bore_at, bore_needed, greatest_corner, highest_beside
from planner.increment import Increments, dust
from planner.shop import SIDE_SHARE, Shop, Tool

# What the roughing leaves for the path where the tool's `finish` says nothing (common practice, no source).
ALLOWANCE: dict[Units, float] = {"mm": 0.1, "in": 0.004}
# Share of the tolerance that the place of a row may be off; what the path leaves is off besides.
PLACE_SHARE = 0.25
# Recesses whose lines agree within so many counts share one path.
ALIKE = 1.0


def follows(groove: Groove, tool: Tool, part: Part, shop: Shop) -> Fit | Misfit:
    """Whether one insert can cut a recess by roughing and a finishing path."""
    increments, ground = shop.increments, ground_of(part, groove)
    if tool.where != groove.where:
        return Misfit(tool, "kind")
    if groove.side.hollow and bore_needed(tool, shop) > bore_at(groove, part) + dust(part.units):
        return Misfit(tool, "bore")
    if tool.width > groove.width + 2 * groove.edge_chamfer:
        return Misfit(tool, "width")
    if groove.shape == "rectangular" and tool.corner_radius > greatest_corner(groove, shop) + dust(part.units):
        return Misfit(tool, "corner")
    aims = aims_of(groove, shop.machine.tolerance)
    if groove.shape not in FORMS and missed(aims.width, increments):
        return Misfit(tool, "count")
    # At the mouth the insert stands over the lands by as much as its corner or its round reaches in.
    over = tool.corner_radius if tool.edge == "square" else tool.width / 2
    swept = replace(groove, z_near=groove.z_near + over, z_far=groove.z_far - over)
    deepest = highest_beside(swept, tool, part) - 2 * tool.max_depth
    if deepest > aims.floor.high + dust(part.units):
        return Misfit(tool, "reach")
    found = _contour([groove], [aims], tool, deepest, ground, shop, increments)
    if isinstance(found, Contour):
        return Fit(tool, found.moves, deepest, path=True)
    return Misfit(tool, found)


def place_paths(grooves: Sequence[Groove], fits: Sequence[Fit], part: Part, shop: Shop) -> list[Placed]:
    """The fewest rows for recesses that one insert follows, front to back, those of one line together."""
    rows: list[Placed] = []
    groups: list[tuple[Hollow, list[int]]] = []
    increments = shop.increments
    for k, (groove, fit) in enumerate(zip(grooves, fits, strict=True)):
        own = _hollow(groove, ground_of(part, groove), increments, fit.tool)
        if own is None:
            raise ValueError(f"groove {groove.id} has no line to follow")
        home = next((members for hollow, members in groups if _alike(hollow, own)), None)
        if home is None:
            groups.append((own, [k]))
        else:
            home.append(k)
    for _, members in groups:
        rows += _rows([grooves[k] for k in members], [fits[k] for k in members], part, shop)
    return rows


def _rows(grooves: Sequence[Groove], fits: Sequence[Fit], part: Part, shop: Shop) -> list[Placed]:
    """The rows of recesses of one line; one by one where their tolerances leave no common path."""
    increments, ground, tool = shop.increments, ground_of(part, grooves[0]), fits[0].tool
    aims, deepest = [aims_of(groove, shop.machine.tolerance) for groove in grooves], max(fit.deepest for fit in fits)
    found = _contour(grooves, aims, tool, deepest, ground, shop, increments)
    if not isinstance(found, Contour):
        if len(grooves) == 1:
            raise ValueError(f"groove {grooves[0].id} fits but has no path")
        return [row for one, fit in zip(grooves, fits, strict=True) for row in _rows([one], [fit], part, shop)]
    cut = _width(grooves, aims, increments) / increments.per_length
    spots = [spot_of(g, aim, cut, tool, shop) for g, aim in zip(grooves, aims, strict=True)]
    slack = int(PLACE_SHARE * shop.machine.tolerance * increments.per_length)
    moved = []
    for (low, high), target in spots:
        at = target - found.lead
        near = round(at)
        window = max(low - found.lead, near - slack), min(high - found.lead, near + slack)
        moved.append((window if window[0] <= window[1] else (near, near), at))
    layout = Layout(tuple(plunge.offset for plunge in found.plunges), found.span)
    floor = common_floor(aims, deepest, increments)
    made = placed_rows(grooves, tool, moved, layout, floor, ground, increments)
    return [replace(row, contour=found) for row in made]


def _contour(
    grooves: Sequence[Groove],
    aims: Sequence[Aims],
    tool: Tool,
    deepest: float,
    ground: Ground,
    shop: Shop,
    increments: Increments,
) -> Contour | Obstacle:
    """The contour of like recesses at their common aims, worked out on the first of them."""
    drawn = _hollow(grooves[0], ground, increments, tool)
    if drawn is None:
        return "form"
    floor = common_floor(aims, deepest, increments) / 2
    bounds = bounds_of(grooves[0], tool, shop, increments)
    return contour_of(drawn.aimed(_width(grooves, aims, increments), floor), tool, increments, bounds)


def _hollow(groove: Groove, ground: Ground, increments: Increments, tool: Tool) -> Hollow | None:
    """The line of a recess with as much of the lands beside it as the insert may stand over."""
    return hollow_of(groove, ground, increments, tool.width + groove.edge_chamfer)


def _width(grooves: Sequence[Groove], aims: Sequence[Aims], increments: Increments) -> int:
    """How far apart the walls are cut; a form drawn as such keeps its width."""
    if grooves[0].shape in FORMS:
        return increments.count(grooves[0].width)
    widths = [one.width for one in aims]
    return common_count(widths, common_aim(widths), increments)


def bounds_of(groove: Groove, tool: Tool, shop: Shop, increments: Increments) -> Bounds:
    """What a contour of a groove is held to."""
    per, machine = increments.per_length, shop.machine
    # A corner radius may stand in a corner drawn sharp, as after a plunge; a form's tip and a round edge are no such.
    may_stand = tool.edge == "square" and groove.shape not in FORMS
    return Bounds(
        max(1, increments.count(machine.tolerance)),
        min(tool.corner_radius, greatest_corner(groove, shop)) * per if may_stand else 0.0,
        increments.count(tool.side_depth or SIDE_SHARE * tool.width),
        allowance_of(tool, increments),
    )


def allowance_of(tool: Tool, increments: Increments) -> int:
    """Counts of metal that roughing leaves for the finishing path."""
    return max(1, increments.count(tool.finish or ALLOWANCE[increments.units]))


def _alike(one: Hollow, other: Hollow) -> bool:
    """True if two recesses have the same line within a count, mouth to mouth."""
    a, b = (
        [point for point in hollow.line if hollow.mouth[0] <= point[0] <= hollow.mouth[1]] for hollow in (one, other)
    )
    return len(a) == len(b) and all(max(abs(p[0] - q[0]), abs(p[1] - q[1])) <= ALIKE for p, q in zip(a, b, strict=True))
