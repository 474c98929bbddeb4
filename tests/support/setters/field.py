"""The metal as a fine height field: what the moves leave, which rapid goes through it, and how far it is off the part.

One field a side. `t` runs along the surface (Z outside and inside, the radius on the face), `v` is its height above the
metal (the radius outside, minus the radius inside, Z on the face); a cut takes metal from above.
"""

import math

import numpy as np

from .sheets import bore_profile, profile

AIR = -1e6


class Field:
    """One side of a part, in cells of 0.005 mm or 0.0002 in."""

    def __init__(self, shaft, where):
        self.shaft, self.where = shaft, where
        self.h, room = (0.005, 2.0) if shaft.units == "mm" else (0.0002, 0.08)
        self.sign = -1.0 if where == "inside" else 1.0
        self.top = room + (shaft.steps[0][1] / 2 if where == "face" else 0.0)
        count = round((self.top + (0.0 if where == "face" else shaft.length)) / self.h)
        self.t = self.top - (np.arange(count) + 0.5) * self.h
        self.v = self._blank()

    def _blank(self):
        shaft, t = self.shaft, self.t
        if self.where == "face":
            return np.where((t > shaft.steps[0][1] / 2) | (t < shaft.bore / 2), AIR, 0.0)
        v = np.full(len(t), self.sign * (shaft.bore if self.where == "inside" else shaft.steps[-1][1]) / 2)
        if self.where == "outside":
            for end, across in reversed(shaft.steps):
                v[t > end] = across / 2
        return np.where(t > 0, AIR, v)

    def at(self, x, z):
        return (x / 2, z) if self.where == "face" else (z, self.sign * x / 2)

    def edge(self, insert, t, spread):
        """Which cells a cutting edge spans that has swept over `spread`, and its height over its lowest point there."""
        high = t if insert.reference == "near" else t + insert.width
        low = high - insert.width - spread
        a = max(0, math.floor((self.top - high) / self.h + 1e-6))
        b = min(len(self.t), math.ceil((self.top - low) / self.h - 1e-6))
        cells = self.t[a:b] if b > a else self.t[:0]
        inward, c = np.minimum(high - cells, cells - low), insert.corner
        round_off = c - np.sqrt(np.maximum(0.0, c * c - (c - np.clip(inward, 0, c)) ** 2))
        return slice(a, max(a, b)), np.where(inward > 1e-9, np.where(inward < c, round_off, 0.0), -AIR)

    def path(self, move):
        """(t, v, spread) of places on a move: one for a plunge or a level move, else one a cell down in the metal."""
        (t0, v0), (t1, v1) = self.at(move.x0, move.z0), self.at(move.x1, move.z1)
        if abs(t1 - t0) < 1e-9:
            return [(t1, min(v0, v1), 0.0)]
        if abs(v1 - v0) < 1e-9:
            return [(max(t0, t1), v0, abs(t1 - t0))]
        share = np.linspace(0.0, 1.0, math.ceil(abs(t1 - t0) / self.h) + 1)
        places, top = np.stack([t0 + share * (t1 - t0), v0 + share * (v1 - v0)], axis=1), self.v.max()
        return [(t, v, 0.0) for t, v in places if v <= top]

    def deepest(self, move, insert):
        """How deep the edge gets into metal on a move."""
        if min(self.at(move.x0, move.z0)[1], self.at(move.x1, move.z1)[1]) > self.v.max():
            return 0.0
        worst = 0.0
        for t, v, spread in self.path(move):
            cells, up = self.edge(insert, t, spread)
            if up.size:
                worst = max(worst, float(np.max(self.v[cells] - v - up)))
        return worst

    def cut(self, move, insert):
        for t, v, spread in self.path(move):
            cells, up = self.edge(insert, t, spread)
            self.v[cells] = np.minimum(self.v[cells], v + up)

    def wanted(self):
        """The surface that is drawn."""
        if self.where == "face":
            wanted = self._blank()
            for slot in self.shaft.slots:
                if slot.where == "face":
                    wanted[(self.t < slot.near / 2) & (self.t > slot.far / 2)] = slot.floor
            return wanted
        points = profile(self.shaft) if self.where == "outside" else bore_profile(self.shaft)
        z = np.array([point[0] for point in points]) - np.arange(len(points)) * 1e-9
        drawn = np.interp(-self.t, -z, [self.sign * point[1] for point in points])
        return np.where(self.t > 0, self.v, drawn)


def cut_all(shaft, control):
    """(fields, dangers): the metal left on each side, and (what, line) of whatever nobody may run."""
    fields = {where: Field(shaft, where) for where in {"outside"} | {slot.where for slot in shaft.slots}}
    inserts, unit = {insert.station: insert for insert in shaft.inserts}, 1.0 if shaft.units == "mm" else 1 / 25.4
    dangers = []
    for move in control.moves:
        insert = inserts.get(move.tool)
        if insert is None or None in (move.x0, move.z0, move.x1, move.z1):
            if not move.rapid:
                dangers.append(("no tool" if insert is None else "from nowhere", move.line))
            continue
        field = fields[insert.where]
        deep = field.deepest(move, insert)
        if move.rapid and deep > 0.006 * unit:
            dangers.append(("rapid", move.line))
        if deep > (0.006 * unit if move.rapid else 1e-6):
            field.cut(move, insert)
            dangers += [] if move.rapid else [(what, move.line) for what in _unfit(move, unit)]
    return fields, dangers


def _unfit(move, unit):
    """What is wrong with how a move cuts."""
    tests = {
        "spindle": move.turning != 3,
        "clamp": move.css and not move.clamp,
        "per minute": not move.per_rev,
        "no speed": not move.speed,
        "no feed": move.feed <= 0,
        "feed": move.feed > 0.5 * unit,
    }
    return [what for what, wrong in tests.items() if wrong]


def off(shaft, fields, loose=1.0):
    """What differs from the part by more than `loose` times the shop's tolerance: (slot, what), slot None for lands."""
    wrong, tolerance = [], shaft.tolerance * loose
    for where, field in fields.items():
        slots = [(n, slot) for n, slot in enumerate(shaft.slots) if slot.where == where]
        corner = max((insert.corner for insert in shaft.inserts if insert.where == where), default=0.0)
        for number, slot in slots:
            wrong += [(number, what) for what in _slot_off(shaft, field, slot, corner, tolerance)]
        half, land = (2 if where == "face" else 1), field.v > AIR / 2
        for _, slot in slots:
            low, high = slot.far / half - slot.chamfer, slot.near / half + slot.chamfer
            land &= (field.t > high + 2 * tolerance) | (field.t < low - 2 * tolerance)
        if np.any(field.wanted()[land] - field.v[land] > tolerance):
            wrong.append((None, "land"))
    return wrong


def _slot_off(shaft, field, slot, corner, tolerance):
    """What is wrong with one slot: its floor, its walls at half depth, or that it isn't there."""
    face = slot.where == "face"
    near, far = (slot.near / 2, slot.far / 2) if face else (slot.near, slot.far)
    level, land = (slot.floor, 0.0) if face else (field.sign * slot.floor / 2, field.sign * slot.land / 2)
    floor = (field.t < near - corner - field.h) & (field.t > far + corner + field.h)
    if np.any(np.abs(field.v[floor] - level) * (1 if face else 2) > tolerance + 1e-6):
        yield "floor"
    reach = 1.6 if shaft.units == "mm" else 0.064
    low = (field.v < (level + land) / 2) & (field.v > AIR / 2) & (field.t < near + reach) & (field.t > far - reach)
    if not low.any():
        yield "missing"
        return
    ends = field.t[low].max() + field.h / 2 - near, field.t[low].min() - field.h / 2 - far
    if max(map(abs, ends)) > tolerance + field.h:
        yield "wall"
