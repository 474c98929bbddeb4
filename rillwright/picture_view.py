"""Windows of the compare picture: metal, differences and drawn lines of a stretch of the part, as SVG shapes.

Outside and bore come as overlays of the cut over the drawing, in increments; here both are heights on the diameter.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape

import numpy as np

from extractor.side import Side
from postproc.cutting.metal import Ints
from postproc.judging.overlay import Overlay


@dataclass(frozen=True)
class PictureWindow:
    """A stretch of the part on the sheet: z and radius in increments to points, z rising to the right, radius up.

    `z` and `across` (diameters): least and greatest shown. `x`, `y`: left and bottom on the sheet. `scale`: points per
    increment of length.
    """

    z: tuple[int, int]
    across: tuple[int, int]
    x: float
    y: float
    scale: float

    def at(self, z: float, diameter: float) -> str:
        """A place as the SVG writes it, kept inside the window."""
        z = min(max(z, self.z[0]), self.z[1])
        diameter = min(max(diameter, self.across[0]), self.across[1])
        return (
            f"{self.x + (z - self.z[0]) * self.scale:.2f},{self.y - (diameter - self.across[0]) / 2 * self.scale:.2f}"
        )

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in points."""
        return (self.z[1] - self.z[0]) * self.scale, (self.across[1] - self.across[0]) / 2 * self.scale


@dataclass(frozen=True, eq=False)
class UpperHalf:
    """The upper half of the part: outside and bore, each cut over drawn (as `land`), heights as diameters.

    `face` likewise, with u a diameter and heights as z; `hollow` is the cut face over the one with its grooves filled.
    """

    outside: Overlay
    bore: Overlay | None = None
    face: Overlay | None = None
    hollow: Overlay | None = None

    @staticmethod
    def of(
        outside: Overlay, inside: Overlay | None, face: Overlay | None = None, hollow: Overlay | None = None
    ) -> "UpperHalf":
        """The half from overlays in the frames of their sides."""
        bore = None if inside is None else Overlay(inside.u, -inside.land, -inside.cut, inside.line)
        return UpperHalf(outside, bore, face, hollow)

    def heights(self, z0: int, z1: int, side: Side) -> tuple[int, int]:
        """Least and greatest diameter of one side between two places, ends included."""
        laid = self.bore if side.hollow and self.bore else self.outside
        near = (laid.u[1:] >= z0) & (laid.u[:-1] <= z1)
        found = np.concatenate([laid.land[:, near].ravel(), laid.cut[:, near].ravel()])
        return (int(found.min()), int(found.max())) if found.size else (0, 0)


def view(half: UpperHalf, window: PictureWindow) -> Iterator[str]:
    """Metal, differences, drawn lines and axis in a window."""
    upper = line(half.outside, half.outside.cut, window)
    low = window.across[0]
    ends = max(window.z[0], int(half.outside.u[0])), min(window.z[1], int(half.outside.u[-1]))
    under = [window.at(z, low) for z in ends]
    if half.bore is not None:
        under = line(half.bore, half.bore.cut, window)
    yield f'<polygon class="metal" points="{" ".join([*upper, *reversed(under)])}"/>'
    yield from _differences(half.outside, window, 1)
    yield f'<polyline class="drawn" points="{" ".join(line(half.outside, half.outside.land, window))}"/>'
    if half.bore is not None:
        yield from _differences(half.bore, window, -1)
        yield f'<polyline class="drawn" points="{" ".join(line(half.bore, half.bore.land, window))}"/>'
    if half.face is not None:
        yield from _face(half.face, half.hollow, window)
    if low == 0:
        yield from _axis(window)


def _face(face: Overlay, hollow: Overlay | None, window: PictureWindow) -> Iterator[str]:
    """What is cut into the face, what differs there, and the drawn face."""
    if hollow is not None:
        yield from (_between("air", piece, window) for piece in _apart(hollow))
    for piece in _apart(face):
        yield _between("standing" if sum(piece[2:4]) > sum(piece[4:]) else "gone", piece, window)
    points = [
        (z, d) for a, b, za, zb in zip(face.u[:-1], face.u[1:], *face.land, strict=True) for z, d in ((za, a), (zb, b))
    ]
    told = dict.fromkeys(window.at(float(z), float(d)) for z, d in points)
    yield f'<polyline class="drawn" points="{" ".join(told)}"/>'


def _apart(laid: Overlay) -> Iterator[tuple[int, ...]]:
    """Stretches of the face where cut and land lie apart: two diameters, z of the cut at both, of the land at both."""
    for k in range(len(laid.line)):
        (la, lb), (ca, cb) = laid.land[:, k], laid.cut[:, k]
        if max(abs(la - ca), abs(lb - cb)) > 1:
            yield tuple(int(value) for value in (laid.u[k], laid.u[k + 1], ca, cb, la, lb))


def _between(kind: str, piece: tuple[int, ...], window: PictureWindow) -> str:
    """A stretch between cut and land as a shape."""
    a, b, ca, cb, la, lb = piece
    corners = [window.at(la, a), window.at(lb, b), window.at(cb, b), window.at(ca, a)]
    return f'<polygon class="{kind}" points="{" ".join(corners)}"/>'


def _axis(window: PictureWindow) -> Iterator[str]:
    """The turning axis, and which end is which."""
    a, b = window.at(window.z[0], 0).split(","), window.at(window.z[1], 0).split(",")
    yield f'<line class="axis" x1="{a[0]}" y1="{a[1]}" x2="{b[0]}" y2="{b[1]}"/>'
    yield text(float(a[0]), float(a[1]) + 15, "chuck side", "small")
    yield text(float(b[0]) - 75, float(b[1]) + 15, "front face, Z0", "small")


def line(laid: Overlay, heights: Ints, window: PictureWindow) -> list[str]:
    """A profile as points, both ends of every stretch, so that walls come out upright."""
    points: list[str] = []
    for a, b, ha, hb in zip(laid.u[:-1], laid.u[1:], heights[0], heights[1], strict=True):
        if b > window.z[0] and a < window.z[1]:
            points += [window.at(int(a), int(ha)), window.at(int(b), int(hb))]
    return list(dict.fromkeys(points))


def _differences(laid: Overlay, window: PictureWindow, outward: int) -> Iterator[str]:
    """Metal that should be gone, and metal that should still be there; `outward` is -1 for a bore."""
    for k in range(len(laid.line)):
        a, b = int(laid.u[k]), int(laid.u[k + 1])
        (la, lb), (ca, cb) = laid.land[:, k], laid.cut[:, k]
        if b <= window.z[0] or a >= window.z[1] or max(abs(la - ca), abs(lb - cb)) <= 1:
            continue
        kind = "standing" if outward * (ca + cb - la - lb) > 0 else "gone"
        corners = [window.at(a, la), window.at(b, lb), window.at(b, cb), window.at(a, ca)]
        yield f'<polygon class="{kind}" points="{" ".join(corners)}"/>'


def text(x: float, y: float, words: str, kind: str, anchor: str = "start") -> str:
    """A line of text."""
    return f'<text class="{kind}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{escape(words)}</text>'
