"""The picture of the part at the machine: metal, axis, front face, jaws, numbered grooves, tool and its path.

`part_picture` returns one `svg` element. Layers that the stepping script moves carry the ids named in `LAYERS`.
Colours and patterns of the sets are classes `set-1` to `set-6` and `set-none`, see the style sheet.
"""

from collections.abc import Collection, Iterable, Sequence

from markupsafe import Markup

from extractor.part import ProfilePoints
from extractor.side import OUTSIDE
from rillwright.jobsheet.holding import holding
from rillwright.jobsheet.insert import insert_shape
from rillwright.jobsheet.labels import set_letter
from rillwright.jobsheet.scene import COLOURS, PicturedGroove, Scene, between
from rillwright.jobsheet.stage import ROW, WIDTH, Stage, balloon_width
from rillwright.jobsheet.text import length_text, place_text
from rillwright.records.record import RecordedPath
from rillwright.svg import Dot, PictureScale, group, joined, label, line, outlines, picture, steps, tag

FINGER = 12.0
"""Least width of the field by which a groove is touched."""

FRAME = 16.0
"""How far the field for what moves reaches below the stage, twice over."""

BALLOON, ZERO, START = 16.0, 9.0, 4.0
"""Half heights of a number's ring, of the mark of the zero point and of a start point."""

HOLDER, SHORTEST, LONGEST = 0.3, 46.0, 120.0
"""How far an insert with its holder reaches: as a share of the part's radius, but from so much to so much."""

LAYERS = {"blank": "blank", "cuts": "cuts", "tool": "tool", "trail": "trail"}


NONE = Markup("")


def set_class(index: int | None) -> str:
    """The style class of a set's colour and pattern; after each round they pair differently, so 30 sets look different.

    >>> set_class(0), set_class(6), set_class(None)
    ('set-1 pat-1', 'set-1 pat-2', 'set-none')
    """
    if index is None:
        return "set-none"
    return f"set-{index % COLOURS + 1} pat-{(index + index // COLOURS) % COLOURS + 1}"


def inside_of(profile: ProfilePoints, bore: ProfilePoints | None) -> list[tuple[float, float]]:
    """What closes the half section below its outside: the bore or the axis, from the back to the front."""
    front, back = profile[0][0], profile[-1][0]
    inner = list(bore) if bore else [(front, 0.0), (back, 0.0)]
    if inner[0][0] < front:
        inner = [(front, 0.0), (inner[0][0], 0.0), *inner]
    if inner[-1][0] > back:
        inner = [*inner, (inner[-1][0], 0.0), (back, 0.0)]
    return inner[::-1]


def mirrored(points: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """The same points below the axis."""
    return [(z, -r) for z, r in points]


def body(
    view: PictureScale, profile: ProfilePoints, bore: ProfilePoints | None, whole: bool = True, **attributes: object
) -> Markup:
    """The metal: its area without an edge, then its edges, with none along the axis; `whole` draws both halves."""
    first, last = (bore[0][1], bore[-1][1]) if bore else (0.0, 0.0)
    ends = [(profile[0][0], first)], [(profile[-1][0], last)]
    rows = (profile, inside_of(profile, bore), *ends, bore or ())
    area = edges = holes = ""
    for flip in (1, -1) if whole else (1,):
        above, inside, before, behind, hole = (steps(view.dots((z, r * flip) for z, r in row)) for row in rows)
        area += f"M{above}L{inside}Z"
        edges += f"M{before}L{above}L{behind}"
        holes += f"M{hole}" if hole else ""
    strokes = edges + holes
    return group(tag("path", d=area, class_="metal-area"), tag("path", d=strokes, class_="metal-line"), **attributes)


def recess_points(scene: Scene, recess: PicturedGroove) -> list[tuple[float, float]]:
    """The closed area that a groove takes away, above the axis."""
    near, far = recess.z_near, recess.z_far
    if not recess.side.axial:
        outer, inner = recess.mouth_diameter / 2, recess.floor_diameter / 2
        return [(near, outer), (far, outer), (far, inner), (near, inner)]
    mouth = recess.mouth_diameter / 2
    if not recess.side.hollow:
        stretch = between(scene.outline, near, far, scene.behind)
        return [(near, mouth), *((z, min(r, mouth)) for z, r in stretch), (far, mouth)]
    floor = recess.floor_diameter / 2
    stretch = between(scene.bore or (), near, far, scene.behind_in_bore)
    if max((r for _, r in stretch), default=mouth) < (mouth + floor) / 2:
        # A bore that is told without its grooves: the groove is drawn square.
        stretch = [(near, floor), (far, floor)]
    return [(near, mouth), *((z, max(r, mouth)) for z, r in stretch), (far, mouth)]


def _groove(scene: Scene, stage: Stage, recess: PicturedGroove, row: int | None, words: str) -> Markup:
    """One groove: its area in the set's colour and pattern, its number in a balloon, and a field to touch."""
    points = recess_points(scene, recess)
    areas = [points] if stage.half else [points, mirrored(points)]
    at = (stage.view.x(recess.middle), stage.top - 20 - ROW * (row or 0))
    mouth = stage.view.y(max(r for _, r in points))
    number = [] if row is None else [line((at[0], at[1] + 15), (at[0], mouth), "leader"), _balloon(at, recess)]
    return group(
        tag("title", words),
        tag("path", d=outlines(map(stage.view.dots, areas), closed=True), class_="area"),
        _touch(stage, recess),
        *number,
        class_=f"groove {set_class(recess.set_index)}{'' if recess.drawn else ' undrawn'}",
        tabindex=0,
        role="button",
        aria_label=words,
        data_grooves=recess.id,
        data_sets=None if recess.set_index is None else recess.set_index + 1,
    )


def _touch(stage: Stage, recess: PicturedGroove) -> Markup:
    """An unseen field over the groove and the air before it, wide enough to hit with a finger when there is room."""
    view = stage.view
    width = max((recess.z_near - recess.z_far) * view.scale, FINGER)
    left = view.x(recess.middle) - width / 2
    floor, mouth = view.y(recess.floor_diameter / 2), view.y(recess.mouth_diameter / 2)
    top, bottom = (floor, view.y_axis) if recess.side.hollow else (stage.top, floor)
    top, bottom = (top, bottom) if recess.side.axial else (mouth, floor)
    top, tall = top - 5, bottom - top + 10
    corners = [top] if stage.half else [top, 2 * view.y_axis - top - tall]
    boxes = (f"M{left:.2f} {y:.2f}h{width:.2f}v{tall:.2f}h{-width:.2f}Z" for y in corners)
    return tag("path", d="".join(boxes), class_="touch")


def _balloon(at: Dot, recess: PicturedGroove) -> Markup:
    """The groove's number in a ring."""
    return group(
        tag("ellipse", cx=at[0], cy=at[1], rx=balloon_width(recess.id) / 2, ry=BALLOON, class_="balloon"),
        label((at[0], at[1] + 7), str(recess.id), "t balloon-text"),
    )


def groove_words(scene: Scene, recess: PicturedGroove) -> str:
    """One sentence about a groove, for a screen reader and for hovering."""
    kind = "" if recess.side == OUTSIDE else f"{recess.side.where} "
    lines = f", program line {', '.join(map(str, recess.lines))}" if recess.lines else ""
    owner = f"set {set_letter(recess.set_index)}" if recess.set_index is not None else "not programmed"
    near, far = place_text(recess.z_near, scene.units), place_text(recess.z_far, scene.units)
    floor, mouth = (length_text(d, scene.units) for d in (recess.floor_diameter, recess.mouth_diameter))
    size = f"width {length_text(recess.z_near - recess.z_far, scene.units)}, floor diameter {floor}"
    if not recess.side.axial:
        size = f"inner wall diameter {floor}, outer wall diameter {mouth}"
    kind = kind if recess.drawn else f"{kind}not drawn, counted, "
    return f"Groove {recess.id}: {kind}Z{near} to Z{far}, {size}, {owner}{lines}"


def grooves_layer(scene: Scene, stage: Stage) -> Markup:
    """All grooves with their balloons placed."""
    return joined(
        _groove(scene, stage, recess, row, groove_words(scene, recess))
        for recess, row in zip(scene.recesses, stage.rows, strict=True)
    )


def _axis(stage: Stage) -> Markup:
    """The turning axis, the front face and the mark of the work's zero point (a quartered circle)."""
    x, y = stage.view.dot(0, 0)
    # The words stand clear of the axis, however thin the part is.
    words = min(stage.top + 34, y - 14)
    quarter = f"M{x:.1f} {y:.1f}h9a9 9 0 0 0 -9 -9zM{x:.1f} {y:.1f}h-9a9 9 0 0 0 9 9z"
    return group(
        line((stage.left - 12, y), (stage.right + 12, y), "axis"),
        line((x, stage.top), (x, y + 16 if stage.half else stage.bottom + 10), "front"),
        tag("circle", cx=x, cy=y, r=ZERO, class_="zero"),
        tag("path", d=quarter, class_="zero-fill"),
        label((x + 12, words - 20), "Z0", "t strong", "start"),
        label((x + 12, words), "front face", "ts", "start"),
    )


def trail_path(stage: Stage, moves: Sequence[Sequence[int]], per_length: int, feed: int) -> str:
    """Path data of all moves of one kind, each stretch drawn once however often it is travelled."""
    seen: dict[tuple[int, ...], None] = {}
    for _, _, kind, x0, z0, x1, z1 in moves:
        if kind == feed:
            seen.setdefault((x0, z0, x1, z1))
    k = 1 / per_length
    return outlines([stage.view.dot(z0 * k, x0 * k / 2), stage.view.dot(z1 * k, x1 * k / 2)] for x0, z0, x1, z1 in seen)


def _tool(scene: Scene, stage: Stage, path: RecordedPath | None) -> Markup:
    """The path of the reference edge, the start points, and the first insert standing at its start."""
    parts: list[Markup] = []
    if path and path.moves:
        for feed, name in ((0, "rapid"), (1, "feed")):
            d = trail_path(stage, path.moves, path.per_length, feed)
            parts.append(tag("path", d=d or None, class_=f"trail {name}", clip_path="url(#stage)"))
    for number, run in enumerate(scene.runs, start=1):
        x, y = stage.view.dot(run.start.z, run.start.x / 2)
        title = tag("title", f"Operation {number} starts at X{length_text(run.start.x, scene.units)}")
        parts.append(group(title, tag("circle", cx=x, cy=y, r=START), class_="start"))
    return group(*parts, class_="tool-path") + _inserts(scene, stage)


def _inserts(scene: Scene, stage: Stage) -> Markup:
    """Every insert, moved by the script; as a still picture the first one stands at its first start point."""
    reach = max(SHORTEST, min(LONGEST, HOLDER * scene.outer_diameter / 2 * stage.view.scale))
    shapes = []
    first = scene.runs[0].tool if scene.runs else None
    for name, tool in scene.inserts.items():
        run = next((r for r in scene.runs if r.tool == name), None)
        if run is None:
            continue
        x, y = stage.view.dot(run.start.z, run.start.x / 2)
        shape = insert_shape(tool, stage.view.scale, reach)
        hidden = None if name == first else "display:none"
        shapes.append(
            group(shape, class_="tool", data_tool=name, transform=f"translate({x:.2f} {y:.2f})", style=hidden)
        )
    return group(*shapes, clip_path="url(#stage)")


STOP_RING, STOP_ROUND_IT = 26.0, 0.75
"""Radius of the ring round a groove that a stop speaks of: the least, and as a share of the groove's width."""


def stop_rings(scene: Scene, stage: Stage, stopped: Collection[int]) -> list[tuple[Dot, float]]:
    """Middle and radius of the ring round each groove that a stop speaks of."""
    rings = []
    for recess in (r for r in scene.recesses if r.id in stopped):
        at = stage.view.dot(recess.middle, recess.mid_radius)
        rings.append((at, max(STOP_RING, STOP_ROUND_IT * (recess.z_near - recess.z_far) * stage.view.scale)))
    return rings


def _rings(scene: Scene, stage: Stage, stopped: Collection[int]) -> Markup:
    """Those rings as drawn."""
    rings = [
        tag("circle", cx=x, cy=y, r=radius, class_=name)
        for (x, y), radius in stop_rings(scene, stage, stopped)
        for name in ("ring-halo", "ring")
    ]
    return group(*rings, class_="spot stop") if rings else NONE


def part_picture(
    scene: Scene, stage: Stage, path: RecordedPath | None, stopped: Collection[int] = (), rings: Markup = NONE
) -> Markup:
    """The whole picture; `path` is the record's `path`, None without a program; `stopped` grooves are ringed.

    `rings` are those of what is drawn larger.
    """
    box = tag("rect", x=4, y=stage.top - 4, width=WIDTH - 8, height=stage.bottom - stage.top + 2 * FRAME)
    metal = group(
        body(stage.view, scene.outline, scene.bore, not stage.half, class_="finished"),
        body(stage.view, scene.lands, scene.bore, not stage.half, class_="blank", id=LAYERS["blank"]),
        group(
            tag("path", d="M0 0", id=LAYERS["cuts"]),
            Markup("") if stage.half else _reflection(stage),
            class_="cuts",
            clip_path="url(#stage)",
        ),
    )
    return picture(
        WIDTH,
        stage.height,
        "The part in the machine, to scale",
        tag("defs", tag("clipPath", box, id="stage")),
        metal,
        holding(scene, stage),
        _axis(stage),
        grooves_layer(scene, stage),
        _tool(scene, stage, path),
        rings,
        _rings(scene, stage, stopped),
        role="group",
        id="part-picture",
        class_="part",
    )


def _reflection(stage: Stage) -> Markup:
    """What the cuts leave below the axis."""
    return tag("use", href=f"#{LAYERS['cuts']}", transform=f"matrix(1 0 0 -1 0 {2 * stage.view.y_axis:.2f})")
