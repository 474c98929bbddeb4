"""The grooving insert as drawn: a tip of its width and corner radius, a stub of holder, the reference edge marked.

The shape is drawn about the point that the offset sets, so that moving it to a programmed position is one
translation: (0, 0) is the end of the reference edge at the cutting edge.
"""

from markupsafe import Markup

from extractor.side import FACE, INSIDE
from rillwright.records.record import RecordedTool
from rillwright.svg import group, outline, tag

# Proportions of the picture, not sizes of an insert: the mark of the reference edge, the tip, and how far the blade
# stands back from either flank.
MARK_SIZES, MARK_SHARE = (2.5, 7.0), 0.16
TIP_TALL, TIP_WIDE = (0.35, 0.62), 0.9
BLADE_BACK = 0.08

TURNS = {INSIDE.where: "scale(1 -1)", FACE.where: "rotate(90) scale(-1 1)"}
"""How the shape for outside grooves is turned for another side."""


def insert_shape(tool: RecordedTool, scale: float, reach: float, **attributes: object) -> Markup:
    """The insert at `scale` picture units per length, `reach` picture units tall.

    Outside: the tip looks down to the axis, chuck to the left. Inside: it looks up. On a face: it looks to the left,
    and "far" is its edge nearer the axis.
    """
    edge = [(u * scale, -h * scale) for u, h in tool.edge]
    left, right = edge[0][0], edge[-1][0]
    width, far = right - left, tool.insert.reference == "far"
    mark = max(MARK_SIZES[0], min(MARK_SIZES[1], width * MARK_SHARE))
    tall = min(reach * TIP_TALL[1], max(width * TIP_WIDE, reach * TIP_TALL[0]))
    inner = group(
        tag("path", d=_holder(left, width, reach), class_="holder"),
        tag("path", d=outline([(left, -tall), *edge, (right, -tall)], closed=True), class_="insert"),
        tag("path", d=_edge_mark(left if far else right, mark, reach, far), class_="edge-mark"),
        transform=TURNS.get(tool.insert.side.where),
    )
    return group(inner, **attributes)


def _holder(left: float, width: float, reach: float) -> str:
    """The blade behind the tip, a little narrower."""
    near, far = left + BLADE_BACK * width, left + (1 - BLADE_BACK) * width
    return outline([(near, -width * 0.5), (near, -reach), (far, -reach), (far, -width * 0.5)], closed=True)


def _edge_mark(edge: float, mark: float, reach: float, leftward: bool) -> str:
    """A bar along the reference edge with a flag at its foot, on the outer side."""
    out = -mark if leftward else mark
    tall = min(reach, mark * 7)
    flag = [(edge, 0.0), (edge + 2 * out, -2 * mark), (edge + out * 0.5, -2 * mark)]
    return outline([*flag, (edge + out * 0.5, -tall), (edge, -tall)], closed=True)
