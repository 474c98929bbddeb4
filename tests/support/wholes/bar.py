"""A bar of samples along Z: what the legs of a program take from outside and from inside, and what they run into."""

from dataclasses import dataclass, field

import numpy as np

from support.wholes.lathe import Leg

STEP = 0.02
TOUCH = 0.06
BEHIND = 25.0


@dataclass(frozen=True)
class Cutter:
    """What stands in a station: "turn" and "bore" are points, "groove" and "inner" have a width on the front side of
    their Z, a "drill" a diameter, "thread" and "part" take nothing that is looked at here."""

    kind: str
    size: float = 0.0


@dataclass
class Bar:
    """A bar across `stock`, its front at z = `front`, drilled nowhere yet."""

    stock: float
    length: float
    cutters: dict[int, Cutter]
    front: float = 1.0
    dangers: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.z = np.arange(-self.length - BEHIND, self.front, STEP) + STEP / 2
        self.outer = np.full(len(self.z), self.stock)
        self.inner = np.zeros(len(self.z))

    def cut(self, legs: list[Leg]) -> "Bar":
        """Make every leg."""
        for leg in legs:
            cutter = self.cutters.get(leg.tool, Cutter("turn"))
            inside = cutter.kind in ("bore", "inner", "drill")
            wide = cutter.size if cutter.kind in ("groove", "inner") else 0.0
            at, x = self.swept(leg, wide, inside)
            if cutter.kind == "drill":
                x = np.maximum(x, cutter.size)
            if leg.kind == "rapid" and leg.z0 == leg.z1 and cutter.kind in ("turn", "thread"):
                self.straight_in(leg)
            if not len(at) and not (cutter.kind == "turn" and leg.kind == "feed"):
                continue
            if leg.kind == "rapid":
                self.look(leg, at, x, inside)
            elif inside:
                self.inner[at] = np.maximum(self.inner[at], x)
            elif cutter.kind == "turn" and leg.z0 == leg.z1 >= 0:
                ahead = self.z > leg.z0
                self.outer[ahead] = np.minimum(self.outer[ahead], min(leg.x0, leg.x1))
            elif cutter.kind != "thread":
                self.outer[at] = np.minimum(self.outer[at], x)
        return self

    def swept(self, leg: Leg, wide: float, inside: bool) -> tuple[np.ndarray, np.ndarray]:
        """Samples that a leg passes, and the edge's diameter there, the deeper of its two flanks."""
        low, high = min(leg.z0, leg.z1), max(leg.z0, leg.z1) + wide
        at = np.flatnonzero((self.z > low) & (self.z < high))
        if leg.z0 == leg.z1:
            deep = max(leg.x0, leg.x1) if inside else min(leg.x0, leg.x1)
            return at, np.full(len(at), deep)
        z, best = self.z[at], None
        for aside in (0.0, wide):
            share = np.clip((z - aside - leg.z0) / (leg.z1 - leg.z0), 0, 1)
            x = leg.x0 + (leg.x1 - leg.x0) * share
            best = x if best is None else (np.maximum if inside else np.minimum)(best, x)
        return at, best

    def straight_in(self, leg: Leg) -> None:
        """A rapid of a point across the axis meets what stands on both sides of it."""
        k = int(np.searchsorted(self.z, leg.z0))
        if 0 < k < len(self.z) and self.outer[k - 1 : k + 1].min() - min(leg.x0, leg.x1) > TOUCH:
            self.dangers.append(f"line {leg.line}: rapid into metal")

    def look(self, leg: Leg, at: np.ndarray, x: np.ndarray, inside: bool) -> None:
        """A rapid must meet no metal."""
        over = self.inner[at] - x if not inside else x - self.inner[at]
        over = self.outer[at] - x if not inside else over
        solid = self.outer[at] > self.inner[at]
        if (over[solid] > TOUCH).any():
            self.dangers.append(f"line {leg.line}: rapid {over[solid].max():.2f} into metal")
