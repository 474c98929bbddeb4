"""Where a view lies on the sheet and which way its front looks."""

from dataclasses import dataclass

from support.ink import Arc, Line, Point, minor_arc
from support.office.model import Piece

OPPOSITE = {"right": "left", "left": "right", "top": "bottom", "bottom": "top"}


@dataclass(frozen=True)
class Place:
    """`x`, `y` is the middle of the front face; `scale` times the true size."""

    x: float = 0.0
    y: float = 0.0
    front: str = "right"
    scale: float = 1.0

    @property
    def lying(self) -> bool:
        return self.front in ("right", "left")

    def at(self, s: float, r: float) -> Point:
        """The point of the sheet at `s` behind the front face and `r` off the axis."""
        k = self.scale
        match self.front:
            case "right":
                return self.x - s * k, self.y + r * k
            case "left":
                return self.x + s * k, self.y + r * k
            case "top":
                return self.x + r * k, self.y - s * k
            case _:
                return self.x + r * k, self.y + s * k

    def line(self, s0: float, r0: float, s1: float, r1: float, role: str = "outline") -> Line:
        return Line(self.at(s0, r0), self.at(s1, r1), role)

    def piece(self, piece: Piece, side: int, role: str = "outline") -> Line | Arc:
        """A piece of the half outline, on the upper (1) or lower (-1) side."""
        p, q, centre = piece
        a, b = self.at(p[0], side * p[1]), self.at(q[0], side * q[1])
        return Line(a, b, role) if centre is None else minor_arc(a, b, self.at(centre[0], side * centre[1]), role)
