"""Programs of plain plunges whose metal lies at a wanted place, in whole counts of the control.

A search over whole numbers finds walls and floors that keep every printed limit but one, and put that one exactly at
its limit, or one count beyond.
"""

import itertools
import math

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from .law import Asked
from .values import Insert, Piece, Shop, State

LEAST = {"mm": 0.001, "in": 0.0001}
SHARP = {"mm": 0.2, "in": 0.008}


class Aims:
    """The whole-number search over one piece's walls and floors."""

    def __init__(self, piece: Piece, wanted: list[Asked]) -> None:
        self.piece, self.least = piece, LEAST[piece.units]
        self.wanted = [a for a in wanted if a.measure.terms]
        self.keys = list(piece.state())
        self.drawn = np.array([piece.state()[key] / self.least for key in self.keys])

    def row(self, one: Asked) -> np.ndarray:
        row = np.zeros(len(self.keys))
        for i, name, share in one.measure.terms:
            row[self.keys.index((i, name))] += share
        return row

    def solve(self, picked: Asked | None = None, upper: bool = True, beyond: bool = False) -> State | None:
        """Walls and floors near the middle of all limits; `picked` at its limit, or one count beyond it."""
        count, far = len(self.keys), len(self.wanted)
        rows, low, high = [], [], []
        for n, one in enumerate(self.wanted):
            row, spare = self.row(one), np.zeros(far)
            ends = [(v - one.measure.constant) / self.least for v in (one.limits.low, one.limits.high)]
            bounds = [math.ceil(ends[0] * 2 - 1e-6) / 2, math.floor(ends[1] * 2 + 1e-6) / 2]
            if one is picked and beyond:
                bounds = [bounds[1] + 1, math.inf] if upper else [-math.inf, bounds[0] - 1]
            rows.append(np.concatenate([row, spare]))
            low.append(bounds[0])
            high.append(bounds[1])
            spare[n] = 1.0
            middle = sum(ends) / 2
            for sign in (1, -1):
                rows.append(np.concatenate([sign * row, -spare]))
                low.append(-math.inf)
                high.append(sign * middle)
        cost = np.concatenate([np.zeros(count), np.ones(far)])
        if picked is not None:
            pull = (1.0 if beyond else -1.0) * (1.0 if upper else -1.0) * 1e3
            cost[:count] += pull * self.row(picked)
        solved = milp(
            cost,
            constraints=LinearConstraint(np.array(rows), low, high),
            bounds=Bounds(
                np.concatenate([self.drawn - 2000, np.zeros(far)]),
                np.concatenate([self.drawn + 2000, np.full(far, np.inf)]),
            ),
            integrality=np.concatenate([np.ones(count), np.zeros(far)]),
        )
        if solved.x is None:
            return None
        return {key: round(value) * self.least for key, value in zip(self.keys, solved.x[:count], strict=True)}


def insert_for(piece: Piece, wanted: list[Asked], shop: Shop, i: int, width: float) -> Insert | None:
    """The widest insert that fits a recess and leaves a corner that the drawing allows."""
    recess = piece.recesses[i]
    corners = [a.limits for a in wanted if a.measure.name == "corner" and a.measure.recess == i]
    low, high = 0.0, recess.corner or SHARP[piece.units]
    for one in corners:
        low, high = max(low, one.low), min(high, one.high) if one.high > 1e6 else one.high
    fits = [x for x in shop.inserts if x.where == recess.where and x.width <= width and low <= x.corner <= high]
    return max(fits, key=lambda x: x.width, default=None)


def places(near: float, far: float, insert: Insert) -> list[float]:
    """Where the programmed edge stands for each plunge between two walls, in u falling from near to far."""
    first = near if insert.reference == "near" else near - insert.width
    last = far + insert.width if insert.reference == "near" else far
    count = math.ceil(abs(first - last) / (insert.width - 2 * insert.corner) / 0.9 - 1e-9)
    return [first, *(first + (last - first) * n / count for n in range(1, count)), last] if count else [first]


class Writer:
    """Writes plunges in plain ISO 6983 words."""

    def __init__(self, piece: Piece) -> None:
        self.piece, self.inch = piece, piece.units == "in"
        self.k = 0.04 if self.inch else 1.0
        self.lines: list[str] = []
        self.tool = 0

    def word(self, letter: str, value: float) -> str:
        text = f"{value:.{4 if self.inch else 3}f}".rstrip("0")
        return letter + (text if text not in ("-0.", "0.") else "0.")

    def go(self, code: str, letter: str, value: float, tail: str = "") -> None:
        self.lines.append(f"{code} {self.word(letter, value)}{tail}")

    def program(self, state: State, inserts: list[Insert]) -> str:
        """The whole text."""
        self.lines = ["%", "O0007", "G70" if self.inch else "G71", "G90 G95"]
        order = sorted(range(len(inserts)), key=lambda i: inserts[i].station)
        for _, group in itertools.groupby(order, key=lambda i: inserts[i].station):
            members = list(group)
            self.change(inserts[members[0]])
            for i in members:
                self.recess(state, i, inserts[i])
            self.home()
        return "\n".join([*self.lines, "M30", "%", ""])

    def change(self, insert: Insert) -> None:
        self.home()
        self.lines += [f"T{insert.station:02d}{insert.station:02d}", "G92 S2000", "G96 S100 M03"]

    def home(self) -> None:
        self.go("G00", "Z", 100 * self.k)
        self.go("G00", "X", 250 * self.k)

    def recess(self, state: State, i: int, insert: Insert) -> None:
        where, feed = self.piece.recesses[i].where, f" F{0.05 * self.k:.4f}"
        near, far, floor = (state[i, name] for name in ("near", "far", "floor"))
        if where == "face":
            self.go("G00", "Z", 2 * self.k)
            for place in places(near / 2, far / 2, insert):
                self.go("G00", "X", 2 * place)
                self.go("G01", "Z", -floor, feed)
                self.go("G00", "Z", 2 * self.k)
            return
        top = max(across for _, across in self.piece.steps) + 4 * self.k
        safe = self.piece.bore - 2 * self.k if where == "inside" else top
        if where == "inside":
            self.go("G00", "Z", 5 * self.k)
        self.go("G00", "X", safe)
        for place in places(-near, -far, insert):
            self.go("G00", "Z", place)
            self.go("G01", "X", floor, feed)
            self.go("G00", "X", safe)
        if where == "inside":
            self.go("G00", "Z", 5 * self.k)


def rival(piece: Piece, wanted: list[Asked], shop: Shop, state: State) -> str | None:
    """The program for walls and floors; None where the shop has no insert for one of them."""
    inserts = []
    for i, recess in enumerate(piece.recesses):
        width = abs(state[i, "near"] - state[i, "far"]) * (0.5 if recess.where == "face" else 1.0)
        insert = insert_for(piece, wanted, shop, i, width + 1e-9)
        if insert is None:
            return None
        inserts.append(insert)
    return Writer(piece).program(state, inserts)
