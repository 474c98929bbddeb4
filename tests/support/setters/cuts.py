"""Ways to cut a groove: by the cycle, peck by peck, with a finishing pass, chamfered edges, by a subprogram."""

import math

from .pen import Pen

# An edge of the insert that is rounded stays this share of its radius behind a 45 degree line drawn by its corner.
BEHIND = 2 - math.sqrt(2)


class Cuts(Pen):
    """Writes cuts; `top` is the diameter above (in a bore: within) all metal there."""

    def reference(self, insert, edge):
        """Z (on the face the diameter) to program for a place of the edge near the front (on the face the outer)."""
        return edge if insert.reference == "near" else edge - insert.width

    def places(self, slot, insert, allowance=0.0):
        """Places of the near edge for all plunges of a slot, in the order of the habit."""
        first, last = slot.near - allowance, slot.far + insert.width + allowance
        span = first - last
        if span < 1e-6:
            return [first]
        steps = math.ceil(span / (insert.width * (0.5 if self.habits.wide == "halves" else 0.75)) - 1e-9)
        places = [round(first - span * n / steps, 3 if self.mm else 4) for n in range(steps)] + [last]
        if self.habits.wide == "near":
            places.reverse()
        elif self.habits.wide == "centre":
            places.sort(key=lambda place: (round(abs(place - (first + last) / 2), 6), place))
        return places

    def some_uw(self):
        return self.habits.uw and not self.plain and self.rng.random() < 0.5

    def plunge(self, top, floor, insert, peck, uw):
        """From where the tool stands above the groove to its floor and back, peck by peck."""
        down, depth, at = (-2 if floor < top else 2), abs(top - floor) / 2, 0.0
        if self.habits.g91 and self.plain:
            self.block(("G", "91"), tag="g91")
            self.relative = True
        while peck and at + peck < depth - 1e-9:
            at = round(at + peck, 4)
            self.move(1, x=top + down * at, feed=insert.feed, tag="peck", uw=uw)
            self.move(0, x=top + down * (at - insert.retract), tag="back", uw=uw)
        self.move(1, x=floor, feed=insert.feed, tag="floor", uw=uw and self.rng.random() < 0.5)
        if self.relative:
            self.relative = False
            self.block(("G", "90"), tag="g90")
        self.dwell()
        self.move(0, x=top, tag="out", uw=uw and self.rng.random() < 0.5)

    def by_hand(self, slot, insert, top, rough=False):
        """Plunge beside plunge; `rough` leaves metal for a finishing pass, which follows."""
        plain = self.habits.form == "nopeck" or slot.depth < insert.width / 2
        left = 0.1 * self.k if rough else 0.0
        floor = slot.floor + (2 * left if slot.where == "outside" else -2 * left)
        for place in self.places(slot, insert, left):
            self.move(0, z=self.reference(insert, place), tag="shift", uw=self.some_uw())
            self.plunge(top, floor, insert, 0.0 if plain else insert.peck, self.habits.uw and not self.plain)
        if rough:
            self.finishing_pass(slot, insert, top)

    def finishing_pass(self, slot, insert, top):
        """Down the near wall and along the floor, out, down the far wall."""
        near, far = self.reference(insert, slot.near), self.reference(insert, slot.far + insert.width)
        self.move(0, z=near, tag="finish")
        self.move(1, x=slot.floor, feed=insert.feed, tag="wall")
        step = 0.5 * self.k if far < near - 1.5 * self.k else 0.0
        if step:
            self.move(1, z=far + step, feed=insert.feed, tag="along")
        self.move(0, x=top, tag="out")
        self.move(0, z=far, tag="finish")
        self.move(1, x=slot.floor, feed=insert.feed, tag="wall")
        self.move(1, z=far + max(step, 3 * insert.corner), feed=insert.feed, tag="along")
        self.move(0, x=top, tag="out")

    def cycle(self, floor, last, shift, insert):
        """G75 from where the tool stands, to a last place on Z."""
        uw = self.some_uw()
        span = last - self.z
        x = self.word("U", floor - self.x) if uw else self.word("X", floor)
        several = abs(span) > 1e-9
        z = (self.word("W", span) if uw else self.word("Z", last)) if several else None
        feed, g75, self.mode, self.feed = self.word("F", insert.feed), ("G", "75"), None, insert.feed
        if self.shaft.control == "one-block":
            amounts = [self.word("I", insert.peck), self.word("K", shift) if several else None]
        else:
            self.block(g75, self.word("R", insert.retract), tag="retract word")
            least = 1000 if self.mm else 10000
            amounts = [("P", str(round(insert.peck * least))), ("Q", str(round(shift * least))) if several else None]
        self.block(g75, x, z, *amounts, feed, tag="cycle")

    def by_cycle(self, slot, insert, top):
        """One call for all plunges of a slot."""
        places = sorted(self.places(slot, insert), reverse=self.habits.wide != "near")
        self.move(0, z=self.reference(insert, places[0]), tag="shift")
        least = 0.001 if self.mm else 0.0001
        shift = math.ceil(abs(places[0] - places[-1]) / max(1, len(places) - 1) / least - 1e-6) * least
        self.cycle(slot.floor, self.reference(insert, places[-1]), shift, insert)

    def row(self, run, insert):
        """One call over a row of like slots for each place of the insert within them."""
        pitch = run[0].near - run[1].near
        for place in self.places(run[0], insert):
            self.move(0, z=self.reference(insert, place), tag="shift")
            last = self.reference(insert, run[-1].near + place - run[0].near)
            self.cycle(run[0].floor, last, pitch, insert)

    def chamfers(self, slot, insert, top, uw=False):
        """Both edges, each with the corner of the insert that lies there."""
        cut, behind, above = slot.chamfer, BEHIND * insert.corner, 0.5 * self.k
        near, far = self.reference(insert, slot.near), self.reference(insert, slot.far + insert.width)
        for wall, outward in ((near, 1), (far, -1)):
            self.move(0, z=wall + outward * (cut + above + behind), tag="chamfer", uw=uw)
            self.move(0, x=slot.land + 2 * above, tag="chamfer")
            self.move(1, x=slot.land - 2 * (cut + behind), z=wall, feed=insert.feed, tag="edge", uw=uw)
            self.move(0, x=top, tag="out")

    def subprogram(self, number, run, insert, top, stepping):
        """One groove by increments; `stepping`: it first moves on by a pitch from where the last one ended."""
        outer, self.into, self.mode, self.feed = self.into, self.subs, None, None
        slot, first = run[0], self.reference(insert, run[0].near)
        self.block(("O", number), tag="o sub")
        self.x, self.z = top, first + (run[0].near - run[1].near if stepping else 0.0)
        self.move(0, z=first, tag="sub step", uw=True)
        for place in self.places(slot, insert):
            self.move(0, z=self.reference(insert, place), tag="sub shift", uw=True)
            self.plunge(top, slot.floor, insert, insert.peck, True)
        if slot.chamfer:
            self.chamfers(slot, insert, top, uw=True)
        self.move(0, z=first, tag="sub back", uw=True)
        self.block(("M", "99"), tag="return")
        self.into, self.mode, self.feed = outer, None, None

    def calls(self, number, run, insert, top, ids):
        """The calls of a subprogram for a row of like slots; its number is one of four digits or fewer."""
        how, pitch, first = self.habits.sub, run[0].near - run[1].near, self.reference(insert, run[0].near)
        self.slots = ids(run)
        self.move(0, z=first if how == "once" else first + pitch, tag="shift")
        if how == "L":
            self.block(("M", "98"), ("P", number), ("L", str(len(run))), tag="call")
        elif how == "packed":
            self.block(("M", "98"), ("P", f"{len(run)}{int(number):04d}"), tag="call")
        else:
            for index, slot in enumerate(run):
                self.slots, self.mode = ids([slot]), None
                self.z = first - pitch * max(0, index - 1)
                self.move(0, z=first - pitch * index, tag="shift")
                self.block(("M", "98"), ("P", number), tag="call")
        self.slots = ids(run)
        self.subprogram(number, run, insert, top, how != "once")
        self.x, self.z = top, self.reference(insert, run[-1].near)
