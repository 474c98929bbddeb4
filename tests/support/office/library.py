"""The same ink by way of a library: R12 to R2018, real dimensions, leaders, hatches, splines and multi-line texts."""

import io

import ezdxf
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts import BaseLayout
from ezdxf.math import Vec2
from ezdxf.render.mleader import ConnectionSide

from support.ink import (
    Arc,
    Block,
    Callout,
    Circle,
    Curve,
    Dim,
    Hatch,
    Ink,
    Leader,
    Line,
    Ordinate,
    Path,
    Solid,
    Text,
    hatch_lines,
    led,
    taken_apart,
)
from support.office.style import OFF, PATTERNS, FileKind, Office


class LibraryWriter:
    def __init__(self, office: Office, kind: FileKind) -> None:
        self.office, self.kind = office, kind
        self.old = kind.version == "R12"
        self.doc: Drawing = ezdxf.new(kind.version, setup=False)
        if kind.insunits is not None and not self.old:
            self.doc.header["$INSUNITS"] = kind.insunits
        for name, pattern in PATTERNS.items():
            if name not in self.doc.linetypes:
                self.doc.linetypes.add(name, [sum(abs(v) for v in pattern), *pattern])
        for name, linetype in office.layer_types().items():
            layer = self.doc.layers.get(name) if name in self.doc.layers else self.doc.layers.add(name)
            layer.dxf.linetype = linetype
            if name == OFF:
                layer.freeze()
        self.msp: BaseLayout = self.doc.modelspace()

    def text(self, ink: list[Ink]) -> str:
        for item in ink:
            self.item(item)
        out = io.StringIO()
        self.doc.write(out)
        return out.getvalue()

    def _look(self, role: str) -> dict[str, str]:
        found = {"layer": self.office.layer(role)}
        kind = self.office.linetype(role)
        return {**found, "linetype": kind} if kind else found

    def item(self, item: Ink) -> None:
        look, msp = self._look(item.role), self.msp
        match item:
            case Line(a, b):
                msp.add_line(a, b, look)
            case Arc(c, r, start, end):
                msp.add_arc(c, r, start, end, dxfattribs=look)
            case Circle(c, r):
                msp.add_circle(c, r, look)
            case Path(points, closed):
                if self.old:
                    msp.add_polyline2d(points, close=closed, dxfattribs=look)
                else:
                    msp.add_lwpolyline(points, close=closed, dxfattribs=look)
            case Curve(points):
                if self.old:
                    msp.add_polyline2d(points, dxfattribs=look)
                else:
                    msp.add_spline(list(points), dxfattribs=look)
            case Solid(points):
                msp.add_solid(points, look)
            case Text():
                self._text(item, look)
            case Dim():
                self._dim(item, look)
            case Ordinate():
                self._ordinate(item, look)
            case Leader(points):
                if self.old:
                    for part in led(item):
                        self.item(part)
                else:
                    msp.add_leader(points, dxfattribs=look, override={"dimasz": item.size})
            case Callout():
                self._callout(item, look)
            case Block():
                self._insert(item, look)
            case Hatch(loops):
                self._hatch(item, loops, look)

    def _callout(self, item: Callout, look: dict[str, str]) -> None:
        if self.old:
            for part in taken_apart(item):
                self.item(part)
            return
        made = self.msp.add_multileader_mtext("Standard", dxfattribs=look)
        made.set_content(item.text, char_height=item.height)
        made.set_arrow_properties(size=item.height)
        made.set_connection_properties(landing_gap=0.4 * item.height, dogleg_length=item.height)
        tip, bend = item.points[0], item.points[-1]
        side = ConnectionSide.left if bend[0] > tip[0] else ConnectionSide.right
        made.add_leader_line(side, [Vec2(p) for p in item.points[:-1]])
        made.build(insert=Vec2(item.at))

    def _insert(self, item: Block, look: dict[str, str]) -> None:
        block = self.doc.blocks.new(f"PART{len(self.doc.blocks)}", base_point=item.base)
        outer, self.msp = self.msp, block
        for inner in item.items:
            self.item(inner)
        self.msp = outer
        outer.add_blockref(block.name, item.at, dxfattribs={**look, "xscale": item.size[0], "yscale": item.size[1]})

    def _text(self, item: Text, look: dict[str, str]) -> None:
        if not self.old and len(item.text) > 12 and not item.middle and not item.angle:
            made = self.msp.add_mtext(item.text, {**look, "char_height": item.height})
            made.set_location(item.at, attachment_point=7)
            return
        made = self.msp.add_text(item.text, height=item.height, rotation=item.angle, dxfattribs=look)
        made.set_placement(
            item.at, align=TextEntityAlignment.MIDDLE_CENTER if item.middle else TextEntityAlignment.LEFT
        )

    def _style(self, height: float) -> dict[str, float | int]:
        return {"dimtxt": height, "dimasz": height, "dimexe": height / 2, "dimexo": height / 3, "dimgap": height / 3,
                "dimdec": 4, "dimzin": 8, "dimlfac": 1.0, "dimscale": 1.0}  # fmt: skip

    def _dim(self, item: Dim, look: dict[str, str]) -> None:
        made = self.msp.add_linear_dim(
            base=item.base, p1=item.a, p2=item.b, angle=item.angle, text=item.text or "<>", dimstyle="Standard",
            override=self._style(item.height), dxfattribs=look,
        )  # fmt: skip
        made.render()

    def _ordinate(self, item: Ordinate, look: dict[str, str]) -> None:
        offset = (item.end[0] - item.feature[0], item.end[1] - item.feature[1])
        add = self.msp.add_ordinate_x_dim if item.along_x else self.msp.add_ordinate_y_dim
        style = self._style(item.height)
        made = add(item.feature, offset=offset, origin=item.origin, text=item.text, override=style, dxfattribs=look)
        made.render()

    def _hatch(self, item: Hatch, loops: tuple[tuple[tuple[float, float], ...], ...], look: dict[str, str]) -> None:
        if self.old or len(loops[0]) % 2:
            for line in hatch_lines(item):
                self.item(line)
            return
        hatch = self.msp.add_hatch(dxfattribs=look)
        hatch.set_pattern_fill("ANSI31", scale=item.spacing / 3.175)
        for points in loops:
            hatch.paths.add_polyline_path(points, is_closed=True)
