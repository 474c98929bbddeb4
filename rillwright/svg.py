"""SVG by hand: elements with everything escaped, and the mapping from the part to the picture.

Nothing here knows of grooves or records. Colours and line weights stand in the sheet's style sheet, by class, so
that one drawing serves light, dark and paper. Picture units are roughly screen pixels on a desktop.
"""

import math
import re
from collections.abc import Iterable, Sequence
from functools import cache

from markupsafe import Markup, escape

from extractor.values import dataclass

Dot = tuple[float, float]
"""x and y in the picture, y downward."""


def tag(name: str, *inside: str, **attributes: object) -> Markup:
    """One element; text inside and every attribute are escaped, None leaves an attribute out.

    A trailing underscore in an attribute's name is dropped (`class_`), other underscores become hyphens.

    >>> tag("text", "<3>", x=1.50, class_="t")
    Markup('<text x="1.5" class="t">&lt;3&gt;</text>')
    """
    words = "".join([f' {_key(key)}="{_said(value)}"' for key, value in attributes.items() if value is not None])
    body = _together(inside)
    return Markup(f"<{name}{words}>{body}</{name}>") if body else Markup(f"<{name}{words}/>")


@cache
def _key(name: str) -> str:
    """The name of an attribute."""
    return name.rstrip("_").replace("_", "-")


def _said(value: object) -> str:
    """Numbers with at most two decimals, anything else as escaped text."""
    if isinstance(value, float):
        return _number(value)
    return str(value) if type(value) is int else _escaped(str(value))


MARKED = re.compile("[&<>'\"]")
"""What can't stand as it is."""


def _escaped(text: str) -> str:
    """Text as markup has it; nearly all stands as it is, and to be told so takes the library longer than to look."""
    return escape(text) if MARKED.search(text) else text


def _together(parts: Iterable[str]) -> str:
    """Markup and text to be escaped, one after the other."""
    return "".join([part if type(part) is Markup else _escaped(part) for part in parts])


def _number(value: float) -> str:
    """A number with at most two decimals."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def joined(parts: Iterable[str]) -> Markup:
    """The markup of several elements, one after the other."""
    return Markup(_together(parts))


def group(*inside: str, **attributes: object) -> Markup:
    """A `g` element."""
    return tag("g", *inside, **attributes)


def line(a: Dot, b: Dot, class_: str) -> Markup:
    """A straight stroke from a to b."""
    return tag("line", x1=a[0], y1=a[1], x2=b[0], y2=b[1], class_=class_)


def label(at: Dot, text: str, class_: str = "t", anchor: str = "middle", **more: object) -> Markup:
    """A line of text; `anchor` is start, middle or end."""
    return tag("text", text, x=at[0], y=at[1], class_=class_, text_anchor=anchor, **more)


def polygon(points: Iterable[Dot], class_: str) -> Markup:
    """A closed shape through the points."""
    return tag("polygon", class_=class_, points=_corners(points))


def polyline(points: Iterable[Dot], class_: str) -> Markup:
    """A stroke through the points."""
    return tag("polyline", class_=class_, points=_corners(points))


def _corners(points: Iterable[Dot]) -> str:
    """The points as an attribute has them, each once."""
    return " ".join(dict.fromkeys(f"{_number(x)},{_number(y)}" for x, y in points))


NOUGHTS = re.compile(r"\.?0+(?=[ LMZ]|$)")
"""Noughts at the end of two decimals, with the point if nothing else stands behind it."""


def outline(points: Sequence[Dot], closed: bool = False) -> str:
    """Path data through the points.

    >>> outline([(0, 0), (2, 0), (2, 1.25)], closed=True)
    'M0 0L2 0L2 1.25Z'
    """
    return outlines([points], closed)


def outlines(rows: Iterable[Sequence[Dot]], closed: bool = False) -> str:
    """Path data through the points of several rows, each by itself; a row of none is left out.

    >>> outlines([[(0, 0), (2, 0)], [], [(0, 1), (2, 1)]])
    'M0 0L2 0M0 1L2 1'
    """
    end = "Z" if closed else ""
    return NOUGHTS.sub("", "".join([f"M{_points(points)}{end}" for points in rows if points]))


def steps(points: Sequence[Dot]) -> str:
    """Points as path data has them, one after the other; to be joined by an L."""
    return NOUGHTS.sub("", _points(points))


def _points(points: Sequence[Dot]) -> str:
    """The same to two decimals, noughts and all."""
    return "L".join([f"{x:.2f} {y:.2f}" for x, y in points])


HEAD, LONG = (-0.3, 0.3), 11
"""Where an arrow head's wings lie beside its shaft, in radians, and how long they are."""

OVER = (0.0, -8.0)
"""From the middle of a dimension line to the text over it."""


def arrow(tip: Dot, towards: Dot) -> Markup:
    """A filled arrow head at `tip`, pointing away from `towards`."""
    angle = math.atan2(tip[1] - towards[1], tip[0] - towards[0])
    wings = [(tip[0] - LONG * math.cos(angle + turn), tip[1] - LONG * math.sin(angle + turn)) for turn in HEAD]
    return tag("path", d=outline([tip, *wings], closed=True), class_="dim-head")


def dimension(a: Dot, b: Dot, text: str, anchor: str = "middle", shift: Dot = OVER, more: str = "") -> Markup:
    """A dimension between two points of a horizontal or vertical line: stroke, heads, and its text beside the middle.

    Where the two lie too near for heads inside, the heads stand outside and point in. `more` are further classes.
    """
    middle = ((a[0] + b[0]) / 2 + shift[0], (a[1] + b[1]) / 2 + shift[1])
    length = math.dist(a, b)
    if length >= 30:
        heads = arrow(a, b) + arrow(b, a) + line(a, b, "dim")
    else:
        ux, uy = ((b[0] - a[0]) / length, (b[1] - a[1]) / length) if length else (0.0, -1.0)
        before, behind = (a[0] - 24 * ux, a[1] - 24 * uy), (b[0] + 24 * ux, b[1] + 24 * uy)
        heads = arrow(a, before) + arrow(b, behind) + line(before, behind, "dim")
    return group(heads, label(middle, text, f"t dim-text {more}".strip(), anchor))


def picture(width: float, height: float, title: str, /, *inside: str, **attributes: object) -> Markup:
    """A whole `svg` element that scales to its box; `title` names it for a screen reader."""
    settings: dict[str, object] = {"viewBox": f"0 0 {_number(width)} {_number(height)}"}
    settings |= {"role": "img", "aria_label": title} | attributes
    return tag("svg", *inside, xmlns="http://www.w3.org/2000/svg", **settings)


@dataclass(frozen=True)
class PictureScale:
    """From the part to the picture: `x` of z, `y` of a radius; one scale (picture units per length) for both."""

    scale: float
    x_front: float
    y_axis: float

    def __post_init__(self) -> None:
        """Refuse a scale that turns the part inside out."""
        if not self.scale > 0:
            raise ValueError("the scale of a picture is positive")

    def x(self, z: float) -> float:
        """Picture x of a place along the axis."""
        return self.x_front + z * self.scale

    def y(self, radius: float) -> float:
        """Picture y of a radius, above the axis where positive."""
        return self.y_axis - radius * self.scale

    def dot(self, z: float, radius: float) -> Dot:
        """Picture point of a place on the part.

        >>> PictureScale(2.0, 100.0, 50.0).dot(-10.0, 5.0)
        (80.0, 40.0)
        """
        return self.x(z), self.y(radius)

    def dots(self, points: Iterable[tuple[float, float]]) -> list[Dot]:
        """Picture points of a profile."""
        scale, x_front, y_axis = self.scale, self.x_front, self.y_axis
        return [(x_front + z * scale, y_axis - radius * scale) for z, radius in points]
