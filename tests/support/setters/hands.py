"""The whole program of a part, as a setter of given habits writes it."""

import random

from .cuts import Cuts
from .pen import spell


class Setter(Cuts):
    """Takes the inserts one after the other, and the grooves of each from the front."""

    def write(self):
        self.head()
        self.away(first=True)
        self.subno = self.rng.choice([100, 1001, 20, 7001])
        for index, insert in enumerate(self.shaft.inserts):
            self.slots = ()
            if index:
                self.dry()
                self.away()
                if self.habits.skip:
                    self.block(("M", self.code(1)), tag="optional", skip=True)
            self.tool(insert)
            slots = [slot for slot in self.shaft.slots if slot.where == insert.where]
            {"outside": self.outside, "inside": self.inside, "face": self.face}[insert.where](insert, slots)
        self.slots = ()
        self.dry()
        self.away()
        self.block(("M", self.habits.end[1:]), tag="end")
        return self.blocks + self.subs

    def ids(self, run):
        return tuple(self.shaft.slots.index(slot) for slot in run)

    def outside(self, insert, slots):
        for run in _rows(slots):
            self.slots = self.ids(run)
            top = max(self.above(slot, insert) for slot in run)
            self.approach(top, self.reference(insert, self.places(run[0], insert)[0]))
            self.run_of(run, insert, top)

    def above(self, slot, insert):
        """The diameter to start at: clear of the highest land beside or under the insert."""
        lands = (self.shaft.land_at(slot.near + 0.3 * self.k), self.shaft.land_at(slot.far - insert.width - self.k))
        return round(max(*lands, slot.land) + 2 * self.k, 4)

    def approach(self, x, z):
        how, far = self.habits.approach, self.x is None or self.x > self.shaft.largest
        if not far and x > self.x:
            steps = [{"x": x}, {"z": z}]
        elif how == "both" and far:
            steps = [{"x": x, "z": z}]
        elif how == "xz" and far:
            steps = [{"x": max(x, self.shaft.largest + 2 * self.k)}, {"z": z}, {"x": x}]
        else:
            steps = [{"z": z}, {"x": x}]
        for step in steps:
            self.move(0, **step, tag="approach")

    def run_of(self, run, insert, top):
        rough = self.habits.finish and run[0].width > insert.width + 0.5 * self.k
        row = len(run) > 1 and not self.plain and not rough
        if row and self.habits.form == "row":
            self.row(run, insert)
            for slot in run:
                self.edges(slot, insert, top)
        elif row and self.habits.sub != "none":
            number = f"{self.subno:04d}" if self.habits.gzero else str(self.subno)
            self.subno += 1
            self.calls(number, run, insert, top, self.ids)
        else:
            for slot in run:
                self.slots = self.ids([slot])
                if self.plain or rough or self.habits.form in ("hand", "nopeck"):
                    self.by_hand(slot, insert, top, rough)
                else:
                    self.by_cycle(slot, insert, top)
                self.edges(slot, insert, top)

    def edges(self, slot, insert, top):
        if slot.chamfer:
            self.slots = self.ids([slot])
            self.chamfers(slot, insert, top)

    def inside(self, insert, slots):
        top, front = slots[0].land - 2 * self.k, 2.0 * self.k
        self.before(top, front)
        for slot in sorted(slots, key=lambda slot: -slot.near):
            self.slots = self.ids([slot])
            if self.plain or self.habits.form in ("hand", "nopeck"):
                self.by_hand(slot, insert, top)
            else:
                self.by_cycle(slot, insert, top)
        self.move(0, z=front, tag="bore out")

    def before(self, x, z):
        """To a place in front of the part."""
        for step in [{"x": x, "z": z}] if self.habits.approach == "both" or self.x is None else [{"z": z}, {"x": x}]:
            self.move(0, **step, tag="approach")

    def face(self, insert, slots):
        """Plunges along Z; places are diameters of the outer edge."""
        front = 2.0 * self.k
        for slot in slots:
            self.slots = self.ids([slot])
            outer, inner = slot.near, slot.far + 2 * insert.width
            spots = [outer] if outer - inner < 1e-6 else [outer, round((outer + inner) / 2, 4), inner]
            for index, spot in enumerate(spots):
                x = spot if insert.reference == "near" else spot - 2 * insert.width
                if index:
                    self.move(0, x=x, tag="shift")
                else:
                    self.before(x, front)
                self.along(slot, insert, front)

    def along(self, slot, insert, front):
        """One plunge into the face, peck by peck."""
        at = 0.0
        while self.habits.form != "nopeck" and at + insert.peck < slot.depth - 1e-9:
            at = round(at + insert.peck, 4)
            self.move(1, z=-at, feed=insert.feed, tag="peck")
            self.move(0, z=round(insert.retract - at, 4), tag="back")
        self.move(1, z=slot.floor, feed=insert.feed, tag="floor")
        self.dwell()
        self.move(0, z=front, tag="out")


def _rows(slots):
    """Runs of alike slots at one pitch, from the front."""
    runs = []
    for slot in sorted(slots, key=lambda slot: -slot.near):
        run = runs[-1] if runs else []
        if run and (run[-1].land, run[-1].floor, round(run[-1].width, 6)) == (
            slot.land,
            slot.floor,
            round(slot.width, 6),
        ):
            pitch = run[-1].near - slot.near
            if len(run) == 1 or abs(run[-2].near - run[-1].near - pitch) < 1e-9:
                run.append(slot)
                continue
        runs.append([slot])
    return runs


def blocks_of(shaft, habits, seed):
    """The blocks of a part's program; the same seed gives the same blocks."""
    return Setter(shaft, habits, random.Random(f"hand {seed}")).write()


def program(shaft, habits, seed):
    """The text of a part's program."""
    return spell(blocks_of(shaft, habits, seed), habits)[0]
