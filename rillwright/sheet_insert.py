"""The grooving insert as drawn: a tip of its width and corner radius, a stub of holder, the reference edge marked.

The shape is drawn about the point that the offset sets, so that moving it to a programmed position is one
translation: (0, 0) is the end of the reference edge at the cutting edge.
"""

from markupsafe import Markup

from rillwright.sheet_scene import Insert
from rillwright.sheet_svg import group, outline, tag


def insert_shape(insert: Insert, scale: float, reach: float, **attributes: object) -> Markup:
    """The insert at `scale` picture units per length, `reach` picture units tall.

    Outside: the tip looks down to the axis, chuck to the left. Inside: it looks up. On a face: it looks to the left,
    and "far" is its edge nearer the axis.
    """
    width, radius = insert.width * scale, min(insert.corner_radius, insert.width / 2) * scale
    shift = 0.0 if insert.reference == "far" else -width
    edge = 0.0 if insert.reference == "far" else width
    mark = max(2.5, min(7.0, width * 0.16))
    inner = group(
        tag("path", d=_holder(width, reach), class_="holder"),
        tag("path", d=_tip(width, radius, min(reach * 0.62, max(width * 0.9, reach * 0.35))), class_="insert"),
        tag("path", d=_edge_mark(edge, mark, reach, insert.reference == "far"), class_="edge-mark"),
        transform=f"translate({shift:.2f} 0)",
    )
    return group(group(inner, transform=_turn(insert.side)), **attributes)


def _turn(side: str) -> str | None:
    """How the shape for outside grooves is turned for another side."""
    return {"inside": "scale(1 -1)", "face": "rotate(90)"}.get(side)


def _tip(width: float, radius: float, tall: float) -> str:
    """The insert itself: a rectangle standing on y = 0, its lower corners rounded."""
    r = f"{radius:.2f} {radius:.2f} 0 0 0"
    return (
        f"M0 {-tall:.2f}L0 {-radius:.2f}A{r} {radius:.2f} 0L{width - radius:.2f} 0"
        f"A{r} {width:.2f} {-radius:.2f}L{width:.2f} {-tall:.2f}Z"
    )


def _holder(width: float, reach: float) -> str:
    """The blade behind the tip, a little narrower."""
    inset = width * 0.08
    return outline(
        [(inset, -width * 0.5), (inset, -reach), (width - inset, -reach), (width - inset, -width * 0.5)], True
    )


def _edge_mark(edge: float, mark: float, reach: float, leftward: bool) -> str:
    """A bar along the reference edge with a flag at its foot, on the outer side."""
    out = -mark if leftward else mark
    tall = min(reach, mark * 7)
    return outline(
        [
            (edge, 0),
            (edge + 2 * out, -2 * mark),
            (edge + out * 0.5, -2 * mark),
            (edge + out * 0.5, -tall),
            (edge, -tall),
        ],
        True,
    )
