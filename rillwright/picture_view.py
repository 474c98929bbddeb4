"""Windows of the compare picture: metal, differences and drawn lines of a stretch of the part, as SVG shapes.

Outside and bore come as overlays of the cut over the drawing, in increments; here both are heights on the diameter.
"""

from collections.abc import Iterator

import numpy as np
from markupsafe import Markup

from extractor.sheet import Ints
from extractor.side import Side
from extractor.values import dataclass
from postproc.judging.overlay import Overlay
from rillwright import svg
from rillwright.svg import Dot, PictureScale, label, polygon, polyline


@dataclass(frozen=True)
class PictureWindow:
    """A stretch of the part on the sheet, in increments of length: what is shown, and where and how large.

    `z` and `across` (diameters): least and greatest shown. `view` puts them on the sheet, z rising to the right.
    """

    z: tuple[int, int]
    across: tuple[int, int]
    view: PictureScale

    @staticmethod
    def of(z: tuple[int, int], across: tuple[int, int], left: float, bottom: float, scale: float) -> "PictureWindow":
        """The window with its lower left corner at a point of the sheet; `scale` is points per increment."""
        return PictureWindow(z, across, PictureScale(scale, left - z[0] * scale, bottom + across[0] / 2 * scale))

    def at(self, z: float, diameter: float) -> Dot:
        """A place on the sheet, kept inside the window."""
        low, high = self.across
        return self.view.dot(min(max(z, self.z[0]), self.z[1]), min(max(diameter, low), high) / 2)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, width and height on the sheet."""
        (left, top), (right, bottom) = self.at(self.z[0], self.across[1]), self.at(self.z[1], self.across[0])
        return left, top, right - left, bottom - top


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


def view(half: UpperHalf, window: PictureWindow) -> Iterator[Markup]:
    """Metal, differences, drawn lines and axis in a window."""
    upper = line(half.outside, half.outside.cut, window)
    low = window.across[0]
    ends = max(window.z[0], int(half.outside.u[0])), min(window.z[1], int(half.outside.u[-1]))
    under = [window.at(z, low) for z in ends]
    if half.bore is not None:
        under = line(half.bore, half.bore.cut, window)
    yield polygon([*upper, *reversed(under)], "metal")
    yield from _differences(half.outside, window, 1)
    yield polyline(line(half.outside, half.outside.land, window), "drawn")
    if half.bore is not None:
        yield from _differences(half.bore, window, -1)
        yield polyline(line(half.bore, half.bore.land, window), "drawn")
    if half.face is not None:
        yield from _face(half.face, half.hollow, window)
    if low == 0:
        yield from _axis(window)


def _face(face: Overlay, hollow: Overlay | None, window: PictureWindow) -> Iterator[Markup]:
    """What is cut into the face, what differs there, and the drawn face."""
    if hollow is not None:
        yield from (_between("air", piece, window) for piece in _apart(hollow))
    for piece in _apart(face):
        yield _between("standing" if sum(piece[2:4]) > sum(piece[4:]) else "gone", piece, window)
    points = [
        (z, d) for a, b, za, zb in zip(face.u[:-1], face.u[1:], *face.land, strict=True) for z, d in ((za, a), (zb, b))
    ]
    yield polyline([window.at(float(z), float(d)) for z, d in points], "drawn")


def _apart(laid: Overlay) -> Iterator[tuple[int, ...]]:
    """Stretches where cut and land lie apart: both ends along u, heights of the cut there, heights of the land."""
    for k in range(len(laid.line)):
        (la, lb), (ca, cb) = laid.land[:, k], laid.cut[:, k]
        if max(abs(la - ca), abs(lb - cb)) > 1:
            yield tuple(int(value) for value in (laid.u[k], laid.u[k + 1], ca, cb, la, lb))


def _between(kind: str, piece: tuple[int, ...], window: PictureWindow) -> Markup:
    """A stretch of the face between cut and land as a shape."""
    a, b, ca, cb, la, lb = piece
    return polygon([window.at(la, a), window.at(lb, b), window.at(cb, b), window.at(ca, a)], kind)


def _axis(window: PictureWindow) -> Iterator[Markup]:
    """The turning axis, and which end is which."""
    a, b = window.at(window.z[0], 0), window.at(window.z[1], 0)
    yield svg.line(a, b, "axis")
    yield label((a[0], a[1] + 15), "chuck side", "small", "start")
    yield label((b[0] - 75, b[1] + 15), "front face, Z0", "small", "start")


def line(laid: Overlay, heights: Ints, window: PictureWindow) -> list[Dot]:
    """A profile as points, both ends of every stretch, so that walls come out upright."""
    points: list[Dot] = []
    for a, b, ha, hb in zip(laid.u[:-1], laid.u[1:], heights[0], heights[1], strict=True):
        if b > window.z[0] and a < window.z[1]:
            points += [window.at(int(a), int(ha)), window.at(int(b), int(hb))]
    return points


def _differences(laid: Overlay, window: PictureWindow, outward: int) -> Iterator[Markup]:
    """Metal that should be gone, and metal that should still be there; `outward` is -1 for a bore."""
    for a, b, ca, cb, la, lb in _apart(laid):
        if b > window.z[0] and a < window.z[1]:
            kind = "standing" if outward * (ca + cb - la - lb) > 0 else "gone"
            yield polygon([window.at(a, la), window.at(b, lb), window.at(b, cb), window.at(a, ca)], kind)
