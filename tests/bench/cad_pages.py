"""Draws sheets of true solids inside a general CAD program: run by its own interpreter, not by that of the project.

python cad_pages.py JOBS.json - the jobs hold parts and pages as plain data (see cad_layout.py); writes a DXF for each.
It is the one file of the bench that imports that program's modules; they must be on PYTHONPATH.
"""

import json
import math
import sys
from importlib import import_module
from typing import Any

FreeCAD: Any = import_module("FreeCAD")
Solids: Any = import_module("Part")
Pages: Any = import_module("TechDraw")
QtCore: Any = import_module("PySide2.QtCore")
Vector = FreeCAD.Vector


def _wire(pieces: list[Any], sign: int = 1) -> list[Any]:
    """Edges of half a profile in the plane y = 0; the front face at x = 0, the part toward -x."""

    def at(p: list[float]) -> Any:
        return Vector(-p[0], 0, sign * p[1])

    made = []
    for p, over, q in pieces:
        if math.dist(p, q) < 1e-9:
            continue
        made.append(Solids.LineSegment(at(p), at(q)) if over is None else Solids.Arc(at(p), at(over), at(q)))
    return [m.toShape() for m in made]


def _closed(pieces: list[Any], length: float) -> Any:
    """The solid that a half profile sweeps; the ends are carried to the axis."""
    begin, end = pieces[0][0], pieces[-1][2]
    axis = [[end, None, [end[0], 0.0]], [[end[0], 0.0], None, [begin[0], 0.0]], [[begin[0], 0.0], None, begin]]
    face = Solids.Face(Solids.Wire(Solids.__sortEdges__(_wire([*pieces, *axis]))))
    return face.revolve(Vector(0, 0, 0), Vector(1, 0, 0), 360)


def _tool(cut: dict[str, Any], shape: dict[str, Any]) -> Any:
    """The body that a cut takes away: keyway, flat, cross hole or bolt circle."""
    kind, reach = cut["kind"], 200.0 if shape["units"] == "mm" else 10.0
    if kind == "key":
        body = Solids.makeBox(cut["far"] - cut["near"], cut["width"], reach, Vector(-cut["far"], -cut["width"] / 2, 0))
        body.translate(Vector(0, 0, cut["floor"]))
    elif kind == "flat":
        body = Solids.makeBox(cut["far"] - cut["near"], reach * 2, reach, Vector(-cut["far"], -reach, cut["floor"]))
    elif kind == "hole":
        body = Solids.makeCylinder(cut["d"] / 2, reach * 2, Vector(-cut["at"], 0, -reach), Vector(0, 0, 1))
    else:
        holes = []
        for k in range(cut["count"]):
            turn = math.radians(cut["start"] + 360 * k / cut["count"])
            foot = Vector(-cut["far"], cut["pcd"] / 2 * math.cos(turn), cut["pcd"] / 2 * math.sin(turn))
            holes.append(Solids.makeCylinder(cut["d"] / 2, cut["far"] - cut["near"], foot, Vector(1, 0, 0)))
        body = Solids.Compound(holes)
    body.rotate(Vector(0, 0, 0), Vector(1, 0, 0), cut.get("turn", 0.0))
    return body


def solid(shape: dict[str, Any]) -> Any:
    """The true solid of a part."""
    body = _closed(shape["outside"], shape["length"])
    if shape["inside"]:
        body = body.cut(_closed(shape["inside"], shape["length"]))
    for cut in shape["cuts"]:
        body = body.cut(_tool(cut, shape))
    return body


def _opened(body: Any, view: dict[str, Any], shape: dict[str, Any]) -> Any:
    """The body with a quarter taken out toward the viewer; an offset one is cut below on a plane of its own too."""
    far = shape["length"] + 50
    reach = max(e[0][1] for e in shape["outside"]) * 2 + 10
    body = body.cut(Solids.makeBox(far + 50, reach, reach, Vector(-far, -reach, 0)))
    if view["kind"] == "offset":
        body = body.cut(Solids.makeBox(far + 50, reach, reach, Vector(-far, -reach - view["aside"], -reach)))
    return body


def _direction(view: dict[str, Any], obj: Any) -> None:
    """Where the view is seen from and what points to the right on it."""
    upright = view.get("upright", False)
    if view["kind"] == "end":
        side = 1 if view["from"] == "front" else -1
        obj.Direction = Vector(side, 0, 0)
        obj.XDirection = Vector(0, 0, -1) if upright else Vector(0, side, 0)
    elif view["kind"] == "iso":
        obj.Direction, obj.XDirection = Vector(1, -1, 1), Vector(1, 1, 0)
    else:
        obj.Direction = Vector(0, -1, 0)
        obj.XDirection = Vector(0, 0, -1) if upright else Vector(1, 0, 0)


class CadPage:
    """One drawing page under way."""

    def __init__(self, app: Any, shape: dict[str, Any], name: str) -> None:
        self.app, self.shape = app, shape
        self.doc = FreeCAD.newDocument(name)
        self.page = self.doc.addObject("TechDraw::DrawPage", "Page")
        self.template = self.doc.addObject("TechDraw::DrawSVGTemplate", "Template")
        self.page.Template = self.template
        self.body = solid(shape)
        self.made: dict[str, Any] = {}

    def feature(self, body: Any, name: str) -> Any:
        one = self.doc.addObject("Part::Feature", name)
        one.Shape = body
        return one

    def settle(self) -> None:
        """Let the program finish what it works out beside."""
        self.doc.recompute()
        for _ in range(3):
            self.app.processEvents(QtCore.QEventLoop.AllEvents, 20)

    def place(self, view: dict[str, Any]) -> None:
        kind = view["kind"]
        cls = {"section": "Section", "detail": "Detail"}.get(kind, "Part")
        obj = self.doc.addObject(f"TechDraw::DrawView{cls}", view["name"])
        self.page.addView(obj)
        if kind in ("half", "offset"):
            obj.Source = [self.feature(_opened(self.body, view, self.shape), view["name"] + "Body")]
        elif kind == "frame":
            lines = [Solids.LineSegment(Vector(*a, 0), Vector(*b, 0)).toShape() for a, b in view["lines"]]
            obj.Source = [self.feature(Solids.Compound(lines), "Lines")]
            obj.Direction, obj.XDirection = Vector(0, 0, 1), Vector(1, 0, 0)
        else:
            obj.Source = [self.whole()]
        if kind != "frame":
            _direction(view, obj)
        if kind in ("section", "detail"):
            obj.BaseView = self.made[view["base"]]
        if kind == "section":
            obj.SectionNormal, obj.SectionOrigin = Vector(0, -1, 0), Vector(-self.shape["length"] / 2, 0, 0)
            obj.SectionDirection = "Up"
            _direction(view, obj)
        if kind == "detail":
            obj.AnchorPoint, obj.Radius = Vector(*view["anchor"], 0), view["radius"]
        obj.ScaleType, obj.Scale = "Custom", view["scale"]
        obj.X, obj.Y = view["x"], view["y"]
        obj.HardHidden = view.get("hidden", False)
        obj.SmoothVisible = view.get("smooth", False)
        self.made[view["name"]] = obj

    def ink(self, view: dict[str, Any]) -> None:
        """Draw lines of our own into a view that has been worked out."""
        lines = [*view.get("extra", []), *(self.hatching(view) if view.get("hatch") else [])]
        for a, b in lines:
            self.made[view["name"]].makeCosmeticLine(Vector(*a, 0), Vector(*b, 0))
        if lines:
            self.made[view["name"]].touch()

    def hatching(self, view: dict[str, Any]) -> list[Any]:
        """Loose lines at 45 degrees over the cut faces, in view coordinates; 3 mm apart on the page."""
        reach = self.shape["length"] + max(p[2][1] for p in self.shape["outside"]) * 2
        plane = Solids.makePlane(2 * reach, reach if view["kind"] != "section" else 2 * reach)
        plane.rotate(Vector(0, 0, 0), Vector(1, 0, 0), 90)
        plane.translate(Vector(-reach - self.shape["length"] / 2, 0, 0 if view["kind"] != "section" else -reach))
        cut = plane.common(self.body)
        step, lines = 3 / view["scale"] * math.sqrt(2), []
        for k in range(int(-2 * reach / step), int(2 * reach / step)):
            x = -self.shape["length"] / 2 + k * step
            lines.append(Solids.LineSegment(Vector(x - reach, 0, -reach), Vector(x + reach, 0, reach)).toShape())
        found = Solids.Compound(lines).common(cut)
        return [[self.seen(v.Point, view) for v in edge.Vertexes] for edge in found.Edges]

    def seen(self, p: Any, view: dict[str, Any]) -> list[float]:
        """A point of the plane y = 0 in the coordinates of a side view."""
        along = p.x + self.shape["length"] / 2
        return [-p.z, along] if view.get("upright") else [along, p.z]

    def whole(self) -> Any:
        return self.doc.getObject("Whole") or self.feature(self.body, "Whole")

    def dimension(self, one: dict[str, Any]) -> None:
        obj = Pages.makeDistanceDim(self.made[one["view"]], one["type"], Vector(*one["a"], 0), Vector(*one["b"], 0))
        obj.X, obj.Y = one["at"]
        if one.get("text"):
            obj.Arbitrary, obj.FormatSpec = True, one["text"]

    def write(self, text: dict[str, Any], number: int) -> None:
        obj = self.doc.addObject("TechDraw::DrawViewAnnotation", f"Words{number}")
        self.page.addView(obj)
        obj.Text, obj.X, obj.Y, obj.TextSize = text["words"], text["x"], text["y"], text["height"]

    def save(self, path: str) -> None:
        self.settle()
        Pages.writeDXFPage(self.page, path)
        FreeCAD.closeDocument(self.doc.Name)


def main() -> None:
    app = QtCore.QCoreApplication(sys.argv[:1])
    # Faces of views are for shading on the screen; finding them takes most of the time, and no page exports them.
    FreeCAD.ParamGet("User parameter:BaseApp/Preferences/Mod/TechDraw/General").SetBool("HandleFaces", False)
    with open(sys.argv[1], encoding="utf-8") as file:
        jobs = json.load(file)
    for number, job in enumerate(jobs):
        page = CadPage(app, job["shape"], f"Sheet{number}")
        for view in job["views"]:
            page.place(view)
        page.settle()
        for view in job["views"]:
            page.ink(view)
        for one in job["dimensions"]:
            page.dimension(one)
        for k, text in enumerate(job["texts"]):
            page.write(text, k)
        page.save(job["out"])
        print(job["out"], flush=True)


if __name__ == "__main__":
    main()
