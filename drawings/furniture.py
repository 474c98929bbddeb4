"""What a sheet carries besides the part: border, title block, notes and dimensions.

All sizes are multiples of `Paper.unit`, about a millimetre on the sheet.
"""

import itertools
from dataclasses import dataclass
from typing import Any

from ezdxf.document import Drawing
from ezdxf.layouts import Modelspace
from samples import Pair, Sample, SampleGroove


@dataclass(frozen=True)
class Paper:
    """A sheet: its size, and the length there of about a millimetre."""

    width: float
    height: float
    unit: float


PAPERS = {"mm": Paper(297.0, 210.0, 1.0), "in": Paper(11.0, 8.5, 0.04)}


@dataclass(frozen=True)
class OnSheet:
    """Where the part lies: its front face's centre on the sheet, and whether its axis stands upright."""

    origin: Pair
    upright: bool

    def __call__(self, z: float, radius: float) -> Pair:
        """Sheet point of a place on the part; negative radii lie on the other side of the axis."""
        x, y = self.origin
        return (x + radius, y + z) if self.upright else (x + z, y + radius)

    @property
    def turn(self) -> int:
        """1 where the placing keeps the sense of rotation, -1 where it mirrors."""
        return -1 if self.upright else 1


def dimension_style(doc: Drawing, unit: float) -> None:
    """One dimension style for the sheet: closed arrows, trailing zeros left out."""
    style = doc.dimstyles.new("PUMP")
    values = {"dimtxt": 2.5, "dimasz": 2.5, "dimexe": 1.25, "dimexo": 0.625, "dimgap": 0.625}
    for name, value in values.items():
        style.set_dxf_attrib(name, value * unit)
    style.set_dxf_attrib("dimzin", 8)
    style.set_dxf_attrib("dimtad", 1)


def border(msp: Modelspace, paper: Paper) -> None:
    """Edge of the sheet, frame, and centring marks."""
    margin = 10 * paper.unit
    for inset in (0.0, margin):
        x0, y0, x1, y1 = inset, inset, paper.width - inset, paper.height - inset
        corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]
        for start, end in itertools.pairwise(corners):
            msp.add_line(start, end, dxfattribs={"layer": "BORDER"})
    middle = paper.width / 2
    msp.add_line((middle, 0), (middle, margin), dxfattribs={"layer": "BORDER"})
    msp.add_line((middle, paper.height - margin), (middle, paper.height), dxfattribs={"layer": "BORDER"})


def title_block(msp: Modelspace, paper: Paper, sample: Sample, number: int) -> None:
    """Rows of label and value in the lower right corner."""
    unit = paper.unit
    left, right, low = paper.width - 120 * unit, paper.width - 10 * unit, 10 * unit
    words = "MILLIMETRES" if sample.units == "mm" else "INCHES"
    rows = (
        ("TITLE", sample.title),
        ("ASSEMBLY", "HAND TEST PUMP"),
        ("DRAWING NO.", f"HTP-{number:03d}"),
        ("MATERIAL", sample.material),
        (f"DIMENSIONS IN {words}", "SCALE 1:1"),
    )
    attribs = {"layer": "TITLE"}
    for n, (label, value) in enumerate(reversed(rows)):
        y = low + 6 * unit * n
        msp.add_line((left, y + 6 * unit), (right, y + 6 * unit), dxfattribs=attribs)
        msp.add_text(label, height=1.8 * unit, dxfattribs=attribs).set_placement((left + 2 * unit, y + 2 * unit))
        msp.add_text(value, height=2.5 * unit, dxfattribs=attribs).set_placement((left + 52 * unit, y + 1.8 * unit))
    msp.add_line((left, low), (left, low + 30 * unit), dxfattribs=attribs)
    msp.add_line((left + 50 * unit, low), (left + 50 * unit, low + 30 * unit), dxfattribs=attribs)


def notes(msp: Modelspace, paper: Paper, sample: Sample) -> None:
    """Numbered notes in the lower left corner."""
    unit = paper.unit
    for n, line in enumerate(sample.notes):
        place = (14 * unit, 14 * unit + 5 * unit * (len(sample.notes) - 1 - n))
        text = msp.add_text(f"{n + 1}. {line}", height=2.5 * unit, dxfattribs={"layer": "NOTES"})
        text.set_placement(place)


def limits_override(limits: Pair | None, note: str) -> tuple[str, dict[str, Any]]:
    """Text after the size and dimension variables for a pair of deviations: lettered where there is a note."""
    if note:
        return f" {note}", {}
    if limits is None:
        return "", {}
    # DIMTM holds the lower deviation with its sign turned.
    return "", {"dimtol": 1, "dimtp": limits[1], "dimtm": -limits[0], "dimdec": 3, "dimtdec": 3, "dimtfac": 0.7}


class Dimensioner:
    """Draws dimensions of one part, each side in rows that move outward."""

    def __init__(self, msp: Modelspace, sample: Sample, place: OnSheet, unit: float) -> None:
        self.msp, self.sample, self.place, self.unit = msp, sample, place, unit
        self.reach = max(diameter for _, diameter in sample.steps) / 2
        self.rows = {"above": 0, "below": 0, "front": 0, "back": 0}

    def _out(self, side: str) -> float:
        self.rows[side] += 1
        return (2 + 7 * self.rows[side]) * self.unit

    def axial(self, z0: float, z1: float, r0: float, r1: float, side: str, text: str, more: dict[str, Any]) -> None:
        """A length along the axis, its line beside the part: above it where no lower half is drawn."""
        sign, side = (1, "above") if self.sample.style == "half" or side == "above" else (-1, "below")
        base = self.place(z0, sign * (self.reach + self._out(side)))
        # From left to right, or upward, so that the text stands above its line.
        first, last = sorted([(z0, sign * r0), (z1, sign * r1)])
        self._linear(base, first, last, 90 if self.place.upright else 0, text, more)

    def diameter(self, z: float, diameter: float, side: str, text: str, more: dict[str, Any], count: str = "") -> None:
        """A diameter, its line beyond the front or the back face; how many there are stands before it."""
        out = self._out(side) * 1.3
        base = self.place(out if side == "front" else -self.sample.length - out, 0.0)
        angle = 0 if self.place.upright else 90
        self._linear(base, (z, -diameter / 2), (z, diameter / 2), angle, f"{count}%%c<>{text}", more)

    def _linear(self, base: Pair, p1: Pair, p2: Pair, angle: float, text: str, more: dict[str, Any]) -> None:
        dimension = self.msp.add_linear_dim(
            base=base,
            p1=self.place(*p1),
            p2=self.place(*p2),
            angle=angle,
            text=text,
            dimstyle="PUMP",
            override={"dimdec": 3, **more},
            dxfattribs={"layer": "DIMENSIONS"},
        )
        dimension.render()


def dimensions(draw: Dimensioner, sample: Sample) -> None:
    """Dimension the part as its shop would: sizes once per kind of groove, places from the front face."""
    first_land = sample.steps[0][1] / 2
    widths = {recess.width: recess for recess in reversed(sample.recesses)}
    floors = {recess.floor: recess for recess in reversed(sample.recesses)}
    for recess in widths.values():
        _width(draw, recess, sample.land(recess.start) / 2)
    for recess in floors.values():
        text, more = limits_override(recess.floor_limits, recess.floor_note)
        draw.diameter(
            -recess.start - recess.width, recess.floor, "back", text, more, _count(draw, "floor", recess.floor)
        )
    _places(draw, sample)
    begin = 0.0
    for length, diameter in sample.steps:
        draw.diameter(-begin, diameter, "front", "", {})
        begin += length
        if begin < sample.length:
            draw.axial(0.0, -begin, first_land, diameter / 2, "below", "", {})
    draw.axial(0.0, -sample.length, first_land, sample.steps[-1][1] / 2, "below", "", {})


def _count(draw: Dimensioner, size: str, value: float) -> str:
    like = sum(1 for other in draw.sample.recesses if getattr(other, size) == value)
    return f"{like}x " if like > 1 else ""


def _width(draw: Dimensioner, recess: SampleGroove, land: float) -> None:
    text, more = limits_override(recess.width_limits, recess.width_note)
    count = _count(draw, "width", recess.width)
    draw.axial(-recess.start, -recess.start - recess.width, land, land, "above", f"{count}<>{text}", more)


def _places(draw: Dimensioner, sample: Sample) -> None:
    """Front walls from the front face; an even row by its first wall and one pitch, the count before it."""
    starts = [recess.start for recess in sample.recesses]
    gaps = {round(b - a, 6) for a, b in itertools.pairwise(starts)}
    even = len(starts) > 3 and len(gaps) == 1
    for recess in sample.recesses[: 1 if even else 6]:
        land = sample.land(recess.start) / 2
        draw.axial(0.0, -recess.start, sample.steps[0][1] / 2, land, "below", "", {})
    if even:
        lands = [sample.land(start) / 2 for start in starts]
        draw.axial(-starts[-2], -starts[-1], lands[-2], lands[-1], "above", f"{len(starts) - 1}x <>", {})
