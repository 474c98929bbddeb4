"""A drawing page while it is laid out: views, sizes and words as plain data for `cad_pages.py`.

View coordinates are true lengths from the middle of a view, to the right and up; places on the page are mm.
"""

import random
from dataclasses import dataclass, field
from typing import Any

from cad_parts import CadShape


@dataclass
class CadDesk:
    """A page while it is laid out. `k` is the scale of the main view, `factor` page units in one unit of the part."""

    rng: random.Random
    family: str
    shape: CadShape
    k: float
    upright: bool
    factor: float = 1.0
    views: list[dict[str, Any]] = field(default_factory=list)
    dimensions: list[dict[str, Any]] = field(default_factory=list)
    texts: list[dict[str, Any]] = field(default_factory=list)
    rows: dict[tuple[str, int], int] = field(default_factory=dict)

    @property
    def long(self) -> float:
        return self.shape.length * self.factor * self.k

    @property
    def across(self) -> float:
        return self.shape.diameter * self.factor * self.k

    def half(self) -> float:
        return self.shape.length * self.factor / 2

    def at(self, s: float, r: float) -> list[float]:
        """A place of the part in the coordinates of a side view; the front face is at the right, or on top."""
        along, out = self.half() - s * self.factor, r * self.factor
        return [-out, along] if self.upright else [along, out]

    def page(self, along: float, out: float) -> tuple[float, float]:
        return (-out, along) if self.upright else (along, out)

    def view(self, name: str, kind: str, along: float, out: float, **more: Any) -> None:
        x, y = self.page(along, out)
        one = {"name": name, "kind": kind, "x": x, "y": y, "scale": self.k, "upright": self.upright, **more}
        self.views.append(one)

    def length_dim(self, view: str, s0: float, s1: float, r: float, words: str = "") -> None:
        """A length along the part, in the next row above the view."""
        row = self._row(view, 1)
        a, b = self.at(s0, r), self.at(s1, r)
        middle = (self.half() - (s0 + s1) / 2 * self.factor) * self.k
        place = self.page(middle, self.across / 2 + 9 + 8 * row)
        self.dim(view, "DistanceY" if self.upright else "DistanceX", (a, b), place, words)

    def diameter_dim(self, view: str, s: float, d: float, words: str, beyond: int) -> None:
        """A diameter at s, its dimension line beyond the front (1) or the back end (-1)."""
        row = self._row(view, 2 * beyond)
        a, b = self.at(s, d / 2), self.at(s, -d / 2)
        place = self.page(beyond * (self.long / 2 + 9 + 8 * row), 0.0)
        self.dim(view, "DistanceX" if self.upright else "DistanceY", (a, b), place, words)

    def _row(self, view: str, side: int) -> int:
        self.rows[view, side] = self.rows.get((view, side), -1) + 1
        return self.rows[view, side]

    def dim(self, view: str, kind: str, ends: Any, place: Any, words: str) -> None:
        one = {"view": view, "type": kind, "a": ends[0], "b": ends[1], "at": list(place), "text": words}
        self.dimensions.append(one)

    def write(self, words: str, x: float, y: float, height: float = 3.5) -> None:
        self.texts.append({"words": [words], "x": x, "y": y, "height": height})

    def number(self, v: float) -> str:
        if self.shape.units == "mm":
            return f"{v:.3f}".rstrip("0").rstrip(".")
        return f"{v:.4f}".rstrip("0") if len(f"{v:.4f}".rstrip("0")) > len(f"{v:.3f}") else f"{v:.3f}"
