"""Close-ups: for each operation the insert standing at its start point, with the figures that a setter keys in.

Drawn to one scale, larger than the picture of the part. Outside grooves are seen from above, inside ones with the
tool below, those of a face with the tool to the right.
"""

from collections.abc import Collection, Sequence

from markupsafe import Markup

from extractor.values import dataclass
from planner.shop import Tool
from rillwright.jobsheet.insert import insert_shape
from rillwright.jobsheet.picture import body, recess_points, set_class
from rillwright.jobsheet.scene import PicturedGroove, Scene, between
from rillwright.jobsheet.text import length_text, place_text
from rillwright.records.record import RecordedOperation, RecordedTool
from rillwright.svg import PictureScale, dimension, group, label, line, outline, picture, tag

WIDTH, HEIGHT = 560.0, 420.0
MOST = 24
"""Close-ups on one sheet; operations beyond that are listed without."""

ACROSS, DOWN, DOWN_A_FACE = 0.3, 0.42, 0.34
"""Shares of the frame that groove and insert take across and upright; a groove of a face is upright by its width."""

MIDDLE_LEFT, MIDDLE_RIGHT = 0.36, 0.62
"""Where across the frame they come: the words about the start stand on the side of the edge that is set."""

FLOOR_LOW, FLOOR_HIGH = 0.74, 0.26
"""Where down the frame a floor comes: outside, and inside."""

FACE_START, FACE_MIDDLE = 0.6, 0.52
"""Where the start comes across the frame, and the middle of the groove down it, in a face."""

BEYOND = 0.1
"""Share of a frame by which more is drawn than it shows, so that the cut ends of the outline lie outside it."""

LEAST_DEPTH = 1e-6
"""For one that the insert does not get into."""

DOT, DROP, UNDER = 5.0, 7.0, 26.0
"""Radius of the start's dot; from the middle of a text down to its base line; from a line down to that of a text."""

WORDS_TOP, WORDS_FOOT = 26.0, 86.0
"""Base line of the first of the words about the start: from the top of the frame, or from its foot."""


@dataclass(frozen=True)
class CloseUp:
    """One operation's first groove, seen close up.

    `land` is the radius that the start point must clear (on a face its z); `down` is +1 where the tool cuts downward
    in the picture (outside), -1 where upward.
    """

    scene: Scene
    run: RecordedOperation
    tool: RecordedTool
    first: PicturedGroove
    view: PictureScale
    land: float
    down: int


def detail_pictures(scene: Scene) -> dict[int, Markup]:
    """A close-up for each operation by its number from 1, where one can be drawn."""
    found: dict[int, Markup] = {}
    for number, run in enumerate(scene.runs[:MOST], start=1):
        recesses = [r for r in (scene.recess(n) for n in run.grooves) if r]
        tool = scene.inserts.get(run.tool)
        if recesses and tool:
            close = (
                _close_up(scene, run, tool, recesses)
                if tool.insert.side.axial
                else _on_face(scene, run, tool, recesses)
            )
            found[number] = _drawn(close, number)
    return found


def _close_up(scene: Scene, run: RecordedOperation, tool: RecordedTool, recesses: Sequence[PicturedGroove]) -> CloseUp:
    """Choose scale and place so that groove, start point and a stub of the tool fill the frame."""
    first = min(recesses, key=lambda r: abs(r.z_far - run.start.z))
    low = insert_left(tool, run.start.z)
    near, far = max(r.z_near for r in recesses), min(r.z_far for r in recesses)
    inside = tool.insert.side.hollow
    profile = scene.bore if inside and scene.bore else scene.lands
    crossed = [r for _, r in between(profile, max(near, low + tool.insert.width), min(far, low))]
    land = (min if inside else max)(crossed, default=first.mouth_diameter / 2)
    left, right = min(first.z_far, low), max(first.z_near, low + tool.insert.width)
    deep = max(abs(run.start.x / 2 - first.floor_diameter / 2), LEAST_DEPTH)
    scale = min(ACROSS * WIDTH / (right - left), DOWN * HEIGHT / deep)
    middle = (MIDDLE_RIGHT if tool.insert.reference == "far" else MIDDLE_LEFT) * WIDTH
    floor = (FLOOR_HIGH if inside else FLOOR_LOW) * HEIGHT
    view = PictureScale(scale, middle - (left + right) / 2 * scale, floor + first.floor_diameter / 2 * scale)
    return CloseUp(scene, run, tool, first, view, land, -1 if inside else 1)


def _on_face(scene: Scene, run: RecordedOperation, tool: RecordedTool, recesses: Sequence[PicturedGroove]) -> CloseUp:
    """The same for a groove of a face: its depth lies along the picture, its width upward."""
    first = min(recesses, key=lambda r: abs(r.floor_diameter - run.start.x))
    deep = max(run.start.z - first.z_far, LEAST_DEPTH)
    wide = max((first.mouth_diameter - first.floor_diameter) / 2, tool.insert.width)
    scale = min(ACROSS * WIDTH / deep, DOWN_A_FACE * HEIGHT / wide)
    x_front, y_axis = FACE_START * WIDTH - run.start.z * scale, FACE_MIDDLE * HEIGHT + first.mid_radius * scale
    view = PictureScale(scale, x_front, y_axis)
    return CloseUp(scene, run, tool, first, view, first.z_near, 1)


def insert_left(tool: RecordedTool, z: float) -> float:
    """Where the chuck-side edge of an insert is when its reference edge stands at z."""
    return z if tool.insert.reference == "far" else z - tool.insert.width


def _drawn(close: CloseUp, number: int) -> Markup:
    """The close-up with its dimensions."""
    frame = f"near-{number}"
    clip = tag("clipPath", tag("rect", x=0, y=0, width=WIDTH, height=HEIGHT, rx=6), id=frame)
    x, y = close.view.dot(close.run.start.z, close.run.start.x / 2)
    face = not close.tool.insert.side.axial
    reach = 20 + (WIDTH - x if face else y if close.down > 0 else HEIGHT - y)
    shape = insert_shape(close.tool, close.view.scale, reach, transform=f"translate({x:.2f} {y:.2f})")
    title = f"Operation {number}: the insert at its start point, enlarged"
    return picture(
        WIDTH,
        HEIGHT,
        title,
        tag("defs", clip),
        group(metal_within(close.scene, close.view, WIDTH, close.run.grooves), shape, clip_path=f"url(#{frame})"),
        face_figures(close) if face else _figures(close),
        class_="detail",
    )


def metal_within(scene: Scene, view: PictureScale, width: float, grooves: Collection[int] | None = None) -> Markup:
    """Part and grooves as far as a frame of a width shows them; of the grooves those named are coloured, else all."""
    low, high = ((x - view.x_front) / view.scale for x in (-BEYOND * width, (1 + BEYOND) * width))
    outside, bore = between(scene.outline, high, low), between(scene.bore or (), high, low)
    if len(outside) < 2:
        return Markup("")
    solid = body(view, tuple(outside), tuple(bore) if len(bore) > 1 else None)
    seen = [r for r in scene.recesses if low < r.z_near and r.z_far < high and (grooves is None or r.id in grooves)]
    areas = [
        tag("path", d=outline(view.dots(recess_points(scene, r)), True), class_=f"area {set_class(r.set_index)}")
        for r in seen
    ]
    return group(solid, *areas)


def _figures(close: CloseUp) -> Markup:
    """Start point, clearance, the reference edge, and width and floor of the groove."""
    view, units, first = close.view, close.scene.units, close.first
    x, y = view.dot(close.run.start.z, close.run.start.x / 2)
    land, floor = view.y(close.land), view.y(first.floor_diameter / 2)
    near, far = view.x(first.z_near), view.x(first.z_far)
    side, anchor = (-1, "end") if close.tool.insert.reference == "far" else (1, "start")
    gap_x, down = x + side * 46, close.down
    gap = abs(close.run.start.x / 2 - close.land)
    # Beside a short dimension the text would lie on the edge of the metal: it stands clear of it.
    middle = (y + land) / 2
    base_line = min(middle + 6, land - 7) if down > 0 else max(middle + 6, land + 21)
    base = floor + down * 28
    width = f"width {length_text(first.z_near - first.z_far, units)}"
    return group(
        line((x, y + down * 40), (x, floor + down * 36), "extension"),
        line((gap_x + side * 12, land), (x, land), "extension"),
        line((gap_x + side * 12, y), (x, y), "extension"),
        dimension(
            (gap_x, y), (gap_x, land), f"clear {length_text(gap, units)}", anchor, (side * 10, base_line - middle)
        ),
        tag("circle", cx=x, cy=y, r=DOT, class_="start-dot"),
        _start_words(close, x + side * 24, anchor),
        dimension((far, base), (near, base), width, shift=(0.0, DROP + down * 19), more="on-metal"),
        label(
            ((near + far) / 2, base + DROP + down * 43),
            f"floor ⌀{length_text(first.floor_diameter, units)}",
            "t on-metal",
        ),
    )


def face_figures(close: CloseUp) -> Markup:
    """The same for a groove in a face: both walls, the depth, and how far in front of the face the tool starts."""
    view, units, first = close.view, close.scene.units, close.first
    x, y = view.dot(close.run.start.z, close.run.start.x / 2)
    face, floor = view.x(first.z_near), view.x(first.z_far)
    outer, inner = view.y(first.mouth_diameter / 2), view.y(first.floor_diameter / 2)
    top, base = min(outer, y) - 26, max(inner, y) + 30
    walls = [
        (outer - 8, f"outer ⌀{length_text(first.mouth_diameter, units)}"),
        (inner + 22, f"inner ⌀{length_text(first.floor_diameter, units)}"),
    ]
    gap = f"clear {length_text(close.run.start.z - first.z_near, units)}"
    return group(
        line((x, y), (x, top - 6), "extension"),
        line((face, outer), (face, base + 8), "extension"),
        dimension((face, top), (x, top), gap, "start", (x - face + 14, DROP - 1)),
        dimension(
            (floor, base), (face, base), f"depth {length_text(first.z_near - first.z_far, units)}", shift=(0.0, UNDER)
        ),
        *(label((floor - 12, at), words, "t on-metal", "end") for at, words in walls),
        tag("circle", cx=x, cy=y, r=DOT, class_="start-dot"),
        _start_words(close, WIDTH - 20, "end"),
    )


def _edge_words(insert: Tool) -> tuple[str, str]:
    """The axis that the offset sets, and which edge of the insert it sets."""
    if not insert.side.axial:
        return "X", "toward the axis" if insert.reference == "far" else "away from the axis"
    return "Z", "chuck side" if insert.reference == "far" else "front side"


def _start_words(close: CloseUp, at: float, anchor: str) -> Markup:
    """What is keyed in for the start point, and which edge it is; beside the tool, out of the metal."""
    units, run = close.scene.units, close.run
    axis, edge = _edge_words(close.tool.insert)
    words = (
        (f"start X{length_text(run.start.x, units)}", "t strong", 24),
        (f"Z{place_text(run.start.z, units)}", "t strong", 26),
        (f"{axis} is set to", "ts", 20),
        (f"this edge, {edge}", "ts", 0),
    )
    rows, y = [], WORDS_TOP if close.down > 0 else HEIGHT - WORDS_FOOT
    for text, style, below in words:
        rows.append(label((at, y), text, style, anchor))
        y += below
    return group(*rows)
