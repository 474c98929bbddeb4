"""What other hands do to an exported page: pens and line types, dimensions taken apart, letters as lines.

Which line is hidden is known from the numbers of the part, not from anything that reads drawings.
"""

import math
from pathlib import Path
from typing import Any

import ezdxf
from ezdxf.addons import text2path
from ezdxf.enums import TextEntityAlignment
from ezdxf.path import render_lwpolylines

NAMES = {
    "layers": {"seen": "OUTLINE", "hidden": "HIDDEN", "ink": "CENTER", "size": "DIM", "word": "TEXT", "lead": "NOTES"},
    "entities": dict.fromkeys(("seen", "hidden", "ink", "size", "word", "lead"), "0"),
    "widths": {"seen": "1", "hidden": "2", "ink": "3", "size": "4", "word": "5", "lead": "4"},
}
TYPES = {"seen": "Continuous", "hidden": "DASHED", "ink": "CENTER"}
WIDTHS = {"seen": 50, "hidden": 25, "ink": 18, "size": 18, "word": 25, "lead": 18}
SAME = 2e-3
"""Places are written with six digits."""


def finish(path: Path, job: dict[str, Any], into: Path) -> None:
    """Change an exported page as its job says, and write it anew."""
    how = job["finish"]
    document = ezdxf.readfile(path, encoding="utf-8")
    space = document.modelspace()
    _written(space, job)
    if how["pens"] != "plain":
        _pens(document, space, job)
    if how["exploded"]:
        for size in list(space.query("DIMENSION")):
            size.explode()
    if how["strokes"]:
        for text in list(space.query("TEXT")):
            _outlined(space, text)
    document.saveas(into)


def _written(space: Any, job: dict[str, Any]) -> None:
    """Sizes as the job has them, its leaders and their words; the program writes sizes in the order of the job."""
    for size, wanted in zip(space.query("DIMENSION"), job["dimensions"], strict=True):
        size.dxf.text = wanted["text"] or size.dxf.text
        size.dxf.text += f" \u00b1 {wanted['tolerance']}" if "tolerance" in wanted else ""
        for text in size.get_geometry_block().query("TEXT"):
            text.dxf.text = size.dxf.text
    for view in job["views"]:
        for line in view.get("leaders", ()):
            a, b = ((view["x"] + p[0] * view["scale"], view["y"] + p[1] * view["scale"]) for p in line)
            space.add_line(a, b, dxfattribs={"layer": view["name"]})
    for text in job["texts"][len(space.query("TEXT")) :]:
        one = space.add_text(text["words"][0], height=text["height"], dxfattribs={"layer": "Words"})
        one.set_placement((text["x"], text["y"]), align=TextEntityAlignment.CENTER)


def _outlined(space: Any, text: Any) -> None:
    paths = text2path.make_paths_from_entity(text)
    render_lwpolylines(space, paths, distance=0.05, dxfattribs={"layer": text.dxf.layer})
    space.delete_entity(text)


def _pens(document: Any, space: Any, job: dict[str, Any]) -> None:
    pens, named = job["finish"]["pens"], NAMES[job["finish"]["pens"]]
    for name, pattern in (("DASHED", [9.0, 6.0, -3.0]), ("CENTER", [20.0, 12.0, -3.0, 2.0, -3.0])):
        if name not in document.linetypes:
            document.linetypes.add(name, pattern)
    for role, layer in named.items():
        if layer not in document.layers:
            document.layers.add(layer)
        if pens == "layers":
            document.layers.get(layer).dxf.linetype = TYPES.get(role, "Continuous")
            document.layers.get(layer).dxf.lineweight = WIDTHS[role]
    views = {v["name"]: v for v in job["views"]}
    for one in space:
        role = _role(one, views, job["shape"])
        one.dxf.layer = named[role]
        if pens == "entities":
            one.dxf.linetype = TYPES.get(role, "Continuous")
            one.dxf.lineweight = WIDTHS[role]
        if pens == "widths":
            one.dxf.lineweight = WIDTHS[role]


def _role(one: Any, views: dict[str, Any], shape: dict[str, Any]) -> str:
    kind = one.dxftype()
    if kind in ("DIMENSION", "TEXT"):
        return "size" if kind == "DIMENSION" else "word"
    view = views.get(one.dxf.layer)
    if view is None or kind != "LINE":
        return "seen"
    a, b = (_in_view(p, view) for p in (one.dxf.start, one.dxf.end))
    for role, lines in (("ink", view.get("extra", ())), ("lead", view.get("leaders", ()))):
        if any(_same((a, b), line) for line in lines):
            return role
    if view.get("hidden") and view["kind"] == "front" and _inside(a, b, view, shape):
        return "hidden"
    return "seen"


def _in_view(p: Any, view: dict[str, Any]) -> tuple[float, float]:
    return (p.x - view["x"]) / view["scale"], (p.y - view["y"]) / view["scale"]


def _same(ends: Any, line: Any) -> bool:
    ways = (line, line[::-1])
    return any(all(math.dist(p, q) < SAME for p, q in zip(ends, way, strict=True)) for way in ways)


def _inside(a: Any, b: Any, view: dict[str, Any], shape: dict[str, Any]) -> bool:
    """Whether a line of the front view lies within the outline: no edge of the outside does that but whole circles."""
    half = shape["length"] / 2
    ends = [(half - p[1], abs(p[0])) if view.get("upright") else (half - p[0], abs(p[1])) for p in (a, b)]
    s, r = (ends[0][0] + ends[1][0]) / 2, max(ends[0][1], ends[1][1])
    beside = [_outer(shape, s + e) for e in (-2 * SAME, 2 * SAME)]
    return r < min(h for h in beside if h is not None) - 5 * SAME


def _outer(shape: dict[str, Any], s: float) -> float | None:
    """The radius of the outside at s; the highest where a wall stands."""
    found = []
    for (s0, r0), over, (s1, r1) in shape["outside"]:
        if min(s0, s1) <= s <= max(s0, s1) and abs(s1 - s0) > 1e-9:
            straight = r0 + (r1 - r0) * (s - s0) / (s1 - s0)
            found.append(straight if over is None else min(r0, r1))
    return max(found, default=None)
