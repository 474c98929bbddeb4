"""Which insert cuts which groove, and in how many plunges; or what stands in the way, and which insert would be needed.

An insert within the limits of the groove's width needs one plunge. A narrower one takes overlapping
plunges whose ends meet both walls; two neighbours overlap by at least both corner radii, so that the floor comes out
flat. The reach is measured from the highest land that the holder would meet.
"""

from collections.abc import Collection, Iterator

from extractor.limits import EPS, Aims, aims_of, corner_limits
from extractor.part import Groove, Part, Units
from extractor.side import OUTSIDE
from extractor.values import dataclass
from planner.counts import missed
from planner.cuts.form import FORMS, makes
from planner.cuts.ground import ground_of
from planner.cuts.sweep import layout_of
from planner.cuts.widen import gaps_for
from planner.increment import dust
from planner.shop import Shop, Tool

# A holder whose body is not described is taken to stand out so far beyond its insert on either side.
UNKNOWN_HOLDER: dict[Units, float] = {"mm": 2.0, "in": 0.08}
NOISE_DIGITS = 9
"""Digits behind the point to which sizes tell kinds of grooves apart: reading leaves errors beyond them."""
SQUARE = ("rectangular", "relief")
"""Shapes that are as wide as the insert where one plunge makes them."""
PROGRAMMED = (*SQUARE, *FORMS)


@dataclass(frozen=True)
class Fit:
    """An insert that cuts a groove: how many plunges, and the lowest floor (a height) that its reach allows there.

    `corner_off`: how far its corner radius is from the one drawn, or from the shop's usual one where none is drawn.
    `path`: cut by roughing and a finishing path; `plunges` then counts the moves of that too.
    """

    tool: Tool
    plunges: int
    deepest: float
    corner_off: float = 0.0
    path: bool = False


@dataclass(frozen=True)
class Misfit:
    """What keeps an insert from cutting a groove: "kind", "form", "width", "reach", "corner", "bore", or as follows.

    "slope": a slope too flat; "round": other corners under a slope; "load": too much metal from the side; "count": no
    step of the control lies between the limits of the width.
    """

    tool: Tool
    reason: str


@dataclass(frozen=True)
class _OfItsKind:
    """What one insert answers to all grooves of a kind: what keeps it out, asked `before` its reach and `after` that.

    `plunges` and `corner_off` are those of the fit, `wide` is true where one plunge makes the width.
    """

    tool: Tool
    before: Misfit | None
    after: Misfit | None = None
    plunges: int = 0
    corner_off: float = 0.0
    wide: bool = False


def fit(
    groove: Groove, tool: Tool, part: Part, shop: Shop, aims: Aims | None = None, *, to_limits: bool = False
) -> Fit | Misfit:
    """Whether and how one insert cuts one groove; `aims` are the groove's, for a caller who tries many inserts.

    `to_limits`: the insert may be as wide as the groove's limits allow, where no other does.
    """
    aims = aims or aims_of(groove, shop.machine.tolerance)
    held = _held(groove, tool, aims, shop, to_limits=to_limits)
    return held.before or _there(groove, held, part, shop, aims, {})


class Fitter:
    """All inserts of a shop held against the grooves of a part; what hangs on the kind of groove alone, once a kind."""

    def __init__(self, part: Part, shop: Shop) -> None:
        """Nothing held yet."""
        self.part, self.shop = part, shop
        self.kinds: dict[tuple[object, ...], list[_OfItsKind]] = {}
        self._alike: dict[tuple[object, ...], list[Fit | Misfit]] = {}
        self._holders = {_holder(tool): tool for tool in shop.tools if tool.where == OUTSIDE.where}

    def answers(self, groove: Groove, barred: Collection[str], *, to_limits: bool = False) -> list[Fit | Misfit]:
        """What `fit` says of all tools but those that are barred by name, in the shop's order."""
        aims = aims_of(groove, self.shop.machine.tolerance)
        key = (to_limits, groove.where, groove.shape, *_sizes(groove, aims))
        if key not in self.kinds:
            shop = self.shop
            self.kinds[key] = [_held(groove, tool, aims, shop, to_limits=to_limits) for tool in shop.tools]
        held = [one for one in self.kinds[key] if one.tool.name not in barred]
        if groove.side != OUTSIDE or groove.shape in FORMS:
            return [one.before or _there(groove, one, self.part, self.shop, aims, {}) for one in held]
        # Outside the lands beside it and its floor alone tell where a groove of a kind lies.
        beside: dict[tuple[float | None, ...], float]
        beside = {holder: highest_beside(groove, tool, self.part) for holder, tool in self._holders.items()}
        alike = (key, frozenset(barred), aims.floor.high, *beside.values())
        if alike not in self._alike:
            there = [one.before or _there(groove, one, self.part, self.shop, aims, beside) for one in held]
            self._alike[alike] = there
        return list(self._alike[alike])


def _sizes(groove: Groove, aims: Aims) -> Iterator[float | str]:
    """The sizes of a groove that decide which inserts fit wherever it lies, to NOISE_DIGITS."""
    yield aims.width.source
    for size in (groove.corner_radius, groove.near - groove.far, aims.corner.high):
        yield round(size, NOISE_DIGITS)
    for size in (aims.width.low, aims.width.aim, aims.width.high):
        yield round(size, NOISE_DIGITS)


def _held(groove: Groove, tool: Tool, aims: Aims, shop: Shop, *, to_limits: bool) -> _OfItsKind:
    """One insert held against a groove wherever it may lie; of a form nothing but its kind can be said so."""
    if tool.where != groove.where or tool.edge != FORMS.get(groove.shape, "square"):
        return _OfItsKind(tool, Misfit(tool, "kind"))
    if groove.shape in FORMS:
        return _OfItsKind(tool, None)
    along = groove.side.along
    wide = as_wide(tool, groove, aims, shop, to_limits=to_limits)
    if along * tool.width > aims.width.aim and not wide:
        return _OfItsKind(tool, Misfit(tool, "width"))
    if tool.corner_radius > greatest_corner(groove, shop) + dust(shop.units):
        return _OfItsKind(tool, Misfit(tool, "corner"))
    if not wide and missed(aims.width.moved(-along * tool.width), shop.increments):
        return _OfItsKind(tool, None, Misfit(tool, "count"))
    gaps, _ = (0, False) if wide else gaps_for(aims.width.aim / along - tool.width, tool)
    if not gaps and not wide:
        return _OfItsKind(tool, None, Misfit(tool, "width"))
    return _OfItsKind(tool, None, None, 1 + gaps, corner_off(groove, tool, shop), wide)


def _there(
    groove: Groove,
    held: _OfItsKind,
    part: Part,
    shop: Shop,
    aims: Aims,
    beside: dict[tuple[float | None, ...], float],
) -> Fit | Misfit:
    """What an insert of the right kind answers where the groove lies; `beside` keeps the lands that holders meet."""
    tool, side = held.tool, groove.side
    if groove.shape in FORMS:
        return _fit_form(groove, tool, part, shop)
    if side.hollow and bore_needed(tool, shop) > bore_at(groove, part) + dust(part.units):
        return Misfit(tool, "bore")
    holder = _holder(tool)
    if holder not in beside:
        beside[holder] = highest_beside(groove, tool, part)
    deepest = beside[holder] - side.up * tool.max_depth
    if deepest > aims.floor.high + dust(part.units):
        return Misfit(tool, "reach")
    if held.after:
        return held.after
    # Along the axis an insert may begin anywhere.
    if not side.axial and layout_of([groove], tool, shop.increments, shop.machine.tolerance, wide=held.wide) is None:
        return Misfit(tool, "sweep")
    return Fit(tool, held.plunges, deepest, held.corner_off)


def _holder(tool: Tool) -> tuple[float | None, float | None]:
    """How far a tool's holder stands out on either side: all that tells which lands it meets."""
    return tool.holder_near, tool.holder_far


def corner_off(groove: Groove, tool: Tool, shop: Shop) -> float:
    """How far an insert's corner radius is from the one wanted; a stronger corner where the drawing leaves it open."""
    wanted = groove.corner_radius if groove.corner_radius > EPS else shop.machine.sharp_corner
    return abs(tool.corner_radius - wanted)


def _fit_form(groove: Groove, tool: Tool, part: Part, shop: Shop) -> Fit | Misfit:
    """Hold an insert of the right kind against a vee or round recess."""
    if not makes(tool, groove, ground_of(part, groove), shop.machine.tolerance):
        return Misfit(tool, "form")
    if groove.side.hollow and bore_needed(tool, shop) > bore_at(groove, part) + dust(part.units):
        return Misfit(tool, "bore")
    deepest = highest_beside(groove, tool, part) - groove.side.up * tool.max_depth
    return Misfit(tool, "reach") if deepest > groove.floor + dust(part.units) else Fit(tool, 1, deepest)


def bore_at(groove: Groove, part: Part) -> float:
    """The narrowest bore on the way to an inside groove; a bottom or a step just behind it is not on the way."""
    return -ground_of(part, groove).within(groove.far, groove.near)


def bore_needed(tool: Tool, shop: Shop) -> float:
    """The least bore for an inside tool: DMIN, and room for the tip to start a clearance away from the wall."""
    clearance = shop.machine.clearance
    return max(tool.min_bore + clearance, 2 * clearance + 2 * EPS)


def greatest_corner(groove: Groove, shop: Shop) -> float:
    """Greatest insert corner radius that the groove allows: as drawn, with its tolerance.

    A corner drawn sharp is nearly always just not drawn: then the shop's `sharp_corner` is the limit.
    """
    if groove.corner_radius <= EPS:
        return shop.machine.sharp_corner
    return corner_limits(groove, shop.machine.tolerance).high


def highest_beside(groove: Groove, tool: Tool, part: Part) -> float:
    """The highest land (a height) that the holder meets, or touches, while the insert is at the groove's walls."""
    side = groove.side
    near, far = (side.along * holder_beside(own, part.units) for own in (tool.holder_near, tool.holder_far))
    return max(groove.mouth, ground_of(part, groove).highest(groove.far - far, groove.near + near))


def holder_beside(own: float | None, units: Units) -> float:
    """How far a holder stands out on one side, as its tool says or as is taken where it doesn't."""
    return UNKNOWN_HOLDER[units] if own is None else own


def as_wide(tool: Tool, groove: Groove, aims: Aims, shop: Shop, *, to_limits: bool) -> bool:
    """True if one plunge makes the width: as drawn within the shop's tolerance, or well within the drawing's own.

    `to_limits`: or just within the drawing's own.
    """
    width = groove.side.along * tool.width
    drawn = abs(width - (groove.near - groove.far)) <= shop.machine.tolerance + EPS
    slack = dust(shop.units)
    return (drawn and aims.width.holds(width, slack)) or (aims.width if to_limits else aims.width.inner).holds(
        width, slack
    )
