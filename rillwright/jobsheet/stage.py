"""Where everything stands in the picture of the part: scale, margins, jaws, half or whole view.

Both axes have one scale. A bar that sticks out of the jaws much further than the part is long is drawn shortened,
with a break, since its length would make the grooves too small to see; the figure beside it is the true one.
"""

from extractor.values import dataclass
from rillwright.jobsheet.labels import place_labels
from rillwright.jobsheet.scene import PicturedGroove, Scene, between
from rillwright.svg import PictureScale

WIDTH = 1000.0
# Shares of the part's radius: room for the holder over it, below the axis of a half, below a whole view, and for jaws.
HOLDER_ROOM, BELOW_AXIS, BELOW_PART, BELOW_JAWS = 0.3, 0.12, 1.02, 0.2
# Room in front of the part, and how stout it is where half of it is drawn, as shares of its length.
IN_FRONT, STOUT = 0.06, 0.75
# The ring about a number of two digits, and what each digit more adds to it.
BALLOON, DIGIT = 32.0, 12.0
LEFT, RIGHT, ABOVE, BELOW = 26.0, 100.0, 14.0, 104.0
"""Margins in picture units: left and right of the work, above the groove numbers, below for dimensions."""

ROW = 36.0
"""Height of one row of groove numbers."""

MOST_TALL = 520.0
"""Greatest height in picture units of the work itself."""

JAWS, BEHIND = 0.12, 0.02
"""Least length of the jaws, and room behind a part that ends in the open, as shares of what is drawn."""

FINE = 18.0
"""A groove that is narrower in picture units is hard to see in the picture of the part: it is drawn larger too."""

SHELF = 38.0
"""Height below the part for the letters of what is drawn larger, where there is any."""

LONGEST_GAP = 0.8
"""Longest bar drawn between part and jaws, as a share of the part's length, before it is shortened."""


@dataclass(frozen=True, kw_only=True)
class Stage:
    """The laid-out picture: `jaw_z` is where the jaw face is drawn (None without), `rows` where each number goes."""

    view: PictureScale
    height: float
    half: bool
    z_left: float
    z_right: float
    r_top: float
    r_bottom: float
    jaw_z: float | None
    jaw_radius: float
    shortened: bool
    rows: tuple[int | None, ...] = ()
    shelf: float = 0.0

    @property
    def top(self) -> float:
        """Picture y of the highest place of the work."""
        return self.view.y(self.r_top)

    @property
    def bottom(self) -> float:
        """Picture y of the lowest place of the work."""
        return self.view.y(self.r_bottom)

    @property
    def foot(self) -> float:
        """Picture y below which the dimensions stand."""
        return self.bottom + self.shelf

    def fine(self, recess: PicturedGroove) -> bool:
        """True for a groove that is too narrow to be seen well."""
        return recess.width * self.view.scale < FINE

    @property
    def left(self) -> float:
        """Picture x of the leftmost place of the work."""
        return self.view.x(self.z_left)

    @property
    def right(self) -> float:
        """Picture x of the rightmost place of the work."""
        return self.view.x(self.z_right)


def _jaws(scene: Scene) -> tuple[float | None, float, bool]:
    """Where along z the jaw face is drawn, what radius is gripped, and whether the bar before it is shortened."""
    back = max(r for z, r in scene.lands if z == scene.lands[-1][0])
    if scene.stick_out is None:
        return None, back, False
    if scene.stick_out <= scene.length:
        here = between(scene.lands, -scene.stick_out, -scene.length)
        return -scene.stick_out, max((r for _, r in here), default=back), False
    longest = scene.length * (1 + LONGEST_GAP)
    # What stands between part and jaws is the bar that the part is turned from, no thinner than its thickest place.
    bar = (scene.grip_diameter or scene.outer_diameter) / 2
    return -min(scene.stick_out, longest), bar, scene.stick_out > longest


def _headroom(scene: Scene, radius: float) -> float:
    """Radial room above the part for the insert at its highest start and a piece of its holder."""
    highest = max((run.start.x / 2 for run in scene.runs), default=radius)
    return max(0.0, min(highest, 2 * radius) - radius) + HOLDER_ROOM * radius


def balloon_width(number: int) -> float:
    """How wide the ring about a groove's number is.

    >>> balloon_width(7), balloon_width(1000)
    (32.0, 56.0)
    """
    return BALLOON + DIGIT * max(0, len(str(number)) - 2)


def stage_of(scene: Scene) -> Stage:
    """Lay the picture out so that part, jaws and the tool at its start fit the page at the largest scale."""
    radius = scene.outer_diameter / 2
    jaw_z, grip, shortened = _jaws(scene)
    length = max(scene.length, 0.0 if jaw_z is None else -jaw_z)
    z_left, z_right = -(1 + BEHIND) * length, IN_FRONT * length
    if jaw_z is not None:
        z_left = min(z_left, jaw_z - JAWS * length)
    half = 2 * radius > STOUT * length
    r_top = radius + _headroom(scene, radius)
    below = BELOW_AXIS if half else BELOW_PART + (BELOW_JAWS if jaw_z is not None else 0.0)
    r_bottom = -below * radius
    room = WIDTH - LEFT - RIGHT
    scale = min(room / (z_right - z_left), MOST_TALL / (r_top - r_bottom))
    spare = room - scale * (z_right - z_left)
    x_front = LEFT + spare / 2 - z_left * scale
    middles = [x_front + r.middle * scale for r in scene.recesses]
    rows = place_labels(middles, balloon_width(max((r.id for r in scene.recesses), default=1)) + 2)
    above = ABOVE + ROW * (1 + max((r for r in rows if r is not None), default=-1))
    view = PictureScale(scale, x_front, above + r_top * scale)
    shelf = SHELF if not half and any(r.width * scale < FINE for r in scene.recesses) else 0.0
    height = above + BELOW + shelf + scale * (r_top - r_bottom)
    return Stage(
        view=view,
        height=height,
        half=half,
        z_left=z_left,
        z_right=z_right,
        r_top=r_top,
        r_bottom=r_bottom,
        jaw_z=jaw_z,
        jaw_radius=grip,
        shortened=shortened,
        rows=tuple(rows),
        shelf=shelf,
    )
