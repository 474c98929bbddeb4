"""Measuring one cut recess against the groove of the drawing that it was matched with.

Walls are measured twice, at the land (less a drawn chamfer) and half-way down (above a drawn corner radius), and the
worse one counts: so a mouth cut too wide shows, and so does a wall that leans. Edges that are broken a little
(`postproc.judging.broken_edge`) leave the walls where they stand upright. The floor is measured between the corners,
at its lowest and its highest point.
"""

from extractor.finding import Finding, Level
from extractor.values import dataclass
from postproc.codes import ProgramCode
from postproc.judging.broken_edge import Mouth, broken_remark, chamfered_remark, find_mouth
from postproc.judging.edges import GrooveRemark
from postproc.judging.overlay import Overlay, Stretch
from postproc.judging.target import Target
from postproc.verdict import State


@dataclass(frozen=True, kw_only=True)
class MeasuredCut:
    """A cut recess as measured: walls and floor in increments, the state and the differences that they make."""

    u0: int
    u1: int
    floor: int
    state: State
    difference: dict[str, float]
    findings: tuple[Finding, ...] = ()
    remarks: tuple[GrooveRemark, ...] = ()


def measure(target: Target, sharp: Overlay, rounded: Overlay, window: Stretch, drop: int, corner: int) -> MeasuredCut:
    """Measure the recess within a window.

    `sharp` and `rounded` are the cut without and with corner radii, `drop` the depth in h counts that is taken for
    nothing, `corner` how far along u the insert's corners reach in from the walls.
    """
    mouth = find_mouth(target, sharp, window, drop)
    inner = mouth.walls if mouth else window
    u0, u1 = _walls(target, sharp, rounded, inner if mouth and mouth.small else window, drop, corner)
    corner = max(corner, target.corner)
    upright = inner if mouth and not mouth.small else (u0, u1)
    low, high = _floor(rounded, upright, corner)
    floor = max((low, high), key=lambda height: _beyond(target, height))
    difference = target.differences(u0, u1, floor)
    findings = _uneven(target, rounded, upright, (low, high), drop, corner)
    state = state_of(target, u0, u1, floor)
    return MeasuredCut(
        u0=u0,
        u1=u1,
        floor=floor,
        state=state,
        difference=difference,
        findings=() if state is State.MATCHES else findings,
        remarks=_remarks(target, mouth, state),
    )


def _remarks(target: Target, mouth: Mouth | None, state: State) -> tuple[GrooveRemark, ...]:
    """What to say about edges that are broken; a big bevel that the drawing's width allows is one too."""
    if mouth is None:
        return ()
    allowed = mouth.small or state is State.MATCHES
    return ((broken_remark if allowed else chamfered_remark)(target, mouth.broken),)


def _walls(target: Target, cut: Overlay, rounded: Overlay, window: Stretch, drop: int, corner: int) -> Stretch:
    """Both walls, each at that of two levels where it lies farther from its place.

    A chamfer is cut with the insert's corner, whose radius belongs to it: so a groove with one is measured rounded, and
    where chamfer and corner leave no upright wall between them, at its mouth alone.
    """
    top = target.mouth - target.chamfer - drop
    middle = max((target.floor + top) // 2, target.floor + target.rise + drop)
    found = [window]
    if target.broken:
        cut = rounded
        found = [(min(window[0] + target.broken, target.u0), max(window[1] - target.broken, target.u1))]
        middle = max(middle, target.floor + target.height(corner))
    if middle <= top or not target.broken:
        walls = cut.below(min(middle, top), window)
        found.extend([_hull(walls)] if walls else [])
    u0 = max((u0 for u0, _ in found), key=lambda u: abs(u - target.u0))
    u1 = max((u1 for _, u1 in found), key=lambda u: abs(u - target.u1))
    return u0, u1


def _hull(stretches: list[Stretch]) -> Stretch:
    """From the first stretch's start to the last one's end."""
    return stretches[0][0], stretches[-1][1]


def _floor(cut: Overlay, walls: Stretch, corner: int) -> Stretch:
    """Lowest and highest point of the floor between the corners."""
    low, _ = cut.range(walls)
    inner = (walls[0] + corner, walls[1] - corner)
    return low, max(low, cut.range(inner)[1]) if inner[0] < inner[1] else low


def _beyond(target: Target, floor: int) -> float:
    """How far a floor lies outside its limits; negative inside."""
    height, allowed = target.increments.length(floor), target.aims.floor
    return max(height - allowed.high, allowed.low - height)


def state_of(target: Target, u0: int, u1: int, floor: int) -> State:
    """The first of position, width and depth that is off, of a cut measured in increments."""
    length, aims, slack = target.increments.length, target.aims, target.slack
    near, far = length(u1), length(u0)
    wide = aims.width.holds(near - far, slack)
    if not _placed(target, near, far, wide):
        return State.POSITION
    if not wide:
        return State.WIDTH
    return State.MATCHES if aims.floor.holds(length(floor), slack) else State.DEPTH


def _placed(target: Target, near: float, far: float, wide: bool) -> bool:
    """True if the groove lies where it should.

    Where the drawing limits a place, it must be kept. Where the sheet only names one, the shop's tolerance holds there,
    and a groove of the wrong width is told as such. Where it names none, a groove is out of place if both walls are off
    to one side by more than that; a single wall that is off is a wrong width. A place that hangs on another groove's
    is judged with that (`postproc.judging.spacing`).
    """
    at = {"near": near, "far": far, "centre": (near + far) / 2}
    own = target.aims.fixed
    if not all(one.holds(at[spot], target.slack) for spot, one in own.items() if one.given):
        return False
    if own:
        return not wide or all(one.holds(at[spot], target.slack) for spot, one in own.items())
    if target.aims.spots:
        return True
    shift = sorted((far - target.groove.far, 0.0, near - target.groove.near))[1]
    return abs(shift) <= target.loose + target.slack


def _uneven(
    target: Target, cut: Overlay, walls: Stretch, floor: Stretch, drop: int, corner: int
) -> tuple[Finding, ...]:
    """A finding that says where metal stands on a floor that isn't level."""
    low, high = floor
    if high - low <= drop:
        return ()
    level = (low + high) // 2
    inner = (walls[0] + corner, walls[1] - corner)
    down = cut.below(level, inner)
    ridge = _standing(down, inner)
    length = target.increments.length
    axis, over = target.groove.side.axis, " on the diameter" if target.groove.side.axial else ""
    place = f"between {axis}{length(ridge[1]):g} and {axis}{length(ridge[0]):g}"
    rib = inner[0] < ridge[0] and ridge[1] < inner[1]
    what = "a rib stands" if rib else "the floor has a step that stands"
    cure = "let the plunges overlap, or go over the floor once more"
    if not rib and ridge[1] - ridge[0] < corner:
        # Just inside a round corner: the next thing to look at is the corner, not the floor.
        what, cure = "metal beside a floor corner stands", "the corner may be cut rounder than drawn"
    message = f"Groove {target.groove.id}: {what} {length(high - low):g} too high{over} {place}; {cure}."
    return (Finding(Level.STOP, ProgramCode.FLOOR_UNEVEN, message, groove=target.groove.id),)


def _standing(down: list[Stretch], inner: Stretch) -> Stretch:
    """The widest stretch that is not down at the floor."""
    ends = [inner[0], *(end for stretch in down for end in stretch), inner[1]]
    gaps = list(zip(ends[::2], ends[1::2], strict=True))
    return max(gaps, key=lambda gap: gap[1] - gap[0])
