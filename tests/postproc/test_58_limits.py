"""Every limit of every field on every side: a cut at the limit agrees, one a least count beyond it differs.

The limits are worked out here from nominal and deviation by hand (ISO 14405-1, from memory: a limit is nominal plus
deviation; a depth counts from the mouth), and the cuts are single plunges of an insert as wide as what is cut.
"""

from dataclasses import dataclass, replace

import pytest
from support.moves import Moves, shop, tool
from support.parts import part_of

from extractor.distance import Distance, Place
from extractor.places import with_distances
from postproc import judge
from postproc.verdict import State

COUNT = 0.001
DEVIATIONS = [(-0.1, 0.1), (0.05, 0.2), (-0.2, -0.05), (0.0, 0.15), (-0.15, 0.0)]
"""Of both signs, both above, both below, and one-sided either way."""


@dataclass(frozen=True)
class Cut:
    """One groove as cut: walls along z, or of a face groove inner and outer diameter, and the floor."""

    far: float
    near: float
    floor: float


NOMINAL = {"outside": Cut(-13.0, -10.0, 34.0), "inside": Cut(-13.0, -10.0, 26.0), "face": Cut(30.0, 36.0, -4.0)}
MOUTH = {"outside": 40.0, "inside": 20.0, "face": 0.0}


def part(where, tolerances=None, **more):
    extra = {"where": where, "tolerances": tolerances or {}} | more
    if where == "face":
        return part_of([(0.0, -4.0, 30.0, extra | {"mouth_diameter": 36.0})], steps=[(0, 60)])
    cut = NOMINAL[where]
    bore = {"bore": 20.0} if where == "inside" else {}
    return part_of([(cut.near, cut.far, cut.floor, extra | ({"mouth_diameter": 20.0} if bore else {}))], **bore)


def state(the_part, where, cut):
    """What judging says of one plunge that leaves just this cut."""
    across = 2 if where == "face" else 1
    insert = tool(width=round((cut.near - cut.far) / across, 6), where=where)
    if where == "face":
        moves = Moves(cut.far, 5.0).feed(None, cut.floor).rapid(None, 5.0)
    elif where == "inside":
        moves = Moves(18.0, 5.0).rapid(18.0, cut.far).feed(cut.floor).rapid(18.0)
    else:
        moves = Moves().plunge(cut.far, cut.floor)
    found = judge(the_part, moves.run(), shop(insert))
    return found.matches[0].state


def both_ends(check, lower, upper, right, wrong):
    """A measure at both limits and a count beyond them."""
    for by, told in ((lower, right), (upper, right), (lower - COUNT, wrong), (upper + COUNT, wrong)):
        assert check(by) is told, by


@pytest.mark.parametrize("where", ["outside", "inside", "face"])
@pytest.mark.parametrize("deviations", DEVIATIONS)
class TestEveryField:
    def test_width(self, where, deviations):
        the_part, nominal = part(where, {"width": deviations}), NOMINAL[where]
        across = 2 if where == "face" else 1

        def check(by):
            # Both walls move by half of what the width is off, so the groove stays about its middle.
            half = across * by / 2
            return state(the_part, where, replace(nominal, far=nominal.far - half, near=nominal.near + half))

        assert check(deviations[0]) is State.MATCHES
        assert check(deviations[1]) is State.MATCHES
        # A count at either wall, for half a count is none.
        assert check(deviations[0] - 2 * COUNT) is State.WIDTH
        assert check(deviations[1] + 2 * COUNT) is State.WIDTH

    def test_floor(self, where, deviations):
        name = "z_far" if where == "face" else "floor_diameter"
        the_part, nominal = part(where, {name: deviations}), NOMINAL[where]
        both_ends(
            lambda by: state(the_part, where, replace(nominal, floor=nominal.floor + by)),
            *deviations,
            State.MATCHES,
            State.DEPTH,
        )

    def test_depth(self, where, deviations):
        the_part, nominal = part(where, {"depth": deviations}), NOMINAL[where]
        deeper = {"outside": -2.0, "inside": 2.0, "face": -1.0}[where]
        both_ends(
            lambda by: state(the_part, where, replace(nominal, floor=nominal.floor + deeper * by)),
            *deviations,
            State.MATCHES,
            State.DEPTH,
        )

    @pytest.mark.parametrize("spot", ["near", "far"])
    def test_a_wall_by_its_field(self, where, deviations, spot):
        names = {"near": "mouth_diameter", "far": "floor_diameter"} if where == "face" else {}
        name = names.get(spot, f"z_{spot}")
        wide = {"width": (-1.0, 1.0)}
        the_part, nominal = part(where, {name: deviations} | wide), NOMINAL[where]
        both_ends(
            lambda by: state(the_part, where, replace(nominal, **{spot: getattr(nominal, spot) + by})),
            *deviations,
            State.MATCHES,
            State.POSITION,
        )

    @pytest.mark.parametrize("spot", ["near", "far", "centre"])
    def test_a_place_by_its_distance(self, where, deviations, spot):
        nominal = NOMINAL[where]
        at = {"near": nominal.near, "far": nominal.far}.get(spot, (nominal.near + nominal.far) / 2)
        start, away = ("axis", 0.5) if where == "face" else ("front", -1.0)
        distance = Distance(
            start=Place(groove=0, spot=start),
            end=Place(groove=1, spot=spot),
            nominal=abs(at * away),
            deviations=deviations,
            source="dimension",
        )
        the_part = with_distances(part(where, {"width": (-1.0, 1.0)}), [distance])

        def check(by):
            # Both walls move alike: only the place changes.
            moved = replace(nominal, far=nominal.far + by / away, near=nominal.near + by / away)
            return state(the_part, where, moved)

        both_ends(check, *deviations, State.MATCHES, State.POSITION)


@pytest.mark.parametrize("where", ["outside", "inside"])
@pytest.mark.parametrize("spot", ["near", "far"])
def test_a_wall_that_is_only_named_has_the_shop_s_tolerance(where, spot):
    nominal, tolerance = NOMINAL[where], 0.02
    place = Place(groove=1, spot=spot)
    at = getattr(nominal, spot)
    named = Distance(start=Place(groove=0, spot="front"), end=place, nominal=-at)
    the_part = with_distances(part(where, {"width": (0.0, 0.2)}), [named])

    def check(by):
        other = "far" if spot == "near" else "near"
        sign = -1 if spot == "near" else 1
        moved = {spot: at + by, other: at + by + sign * 3.1}
        return state(the_part, where, replace(nominal, **moved))

    both_ends(check, -tolerance, tolerance, State.MATCHES, State.POSITION)


class TestSpacing:
    """Two grooves and a printed distance between them: whichever way both lie, what lies between counts."""

    @staticmethod
    def verdict(apart, deviations, shift=0.0, spot="near"):
        plain = part_of([(-10, -13, 34), (-20, -23, 34)])
        start, end = Place(groove=1, spot=spot), Place(groove=2, spot=spot)
        source = "dimension" if deviations else "shop"
        distance = Distance(start=start, end=end, nominal=10.0, deviations=deviations, source=source)
        the_part = with_distances(plain, [distance])
        moves = Moves().plunge(-13 + shift, 34).plunge(-13 + shift - apart, 34)
        return judge(the_part, moves.run(), shop(tool()))

    @pytest.mark.parametrize("deviations", DEVIATIONS)
    @pytest.mark.parametrize("spot", ["near", "far", "centre"])
    def test_both_limits(self, deviations, spot):
        def check(by):
            return self.verdict(10 + by, deviations, spot=spot).agree

        both_ends(check, *deviations, True, False)

    def test_a_spacing_without_deviations_has_the_shop_s_tolerance(self):
        both_ends(lambda by: self.verdict(10 + by, None).agree, -0.02, 0.02, True, False)

    def test_the_first_groove_keeps_its_place_and_the_second_follows_it(self):
        assert self.verdict(10.1, (0.0, 0.2), shift=0.02).agree
        assert not self.verdict(10.1, (0.0, 0.2), shift=0.05).agree

    def test_a_spacing_from_a_groove_that_was_left_out_says_nothing_more_than_that(self):
        distance = Distance(start=Place(groove=1, spot="near"), end=Place(groove=2, spot="near"), nominal=10.0)
        the_part = with_distances(part_of([(-10, -13, 34), (-20, -23, 34)]), [distance])
        found = judge(the_part, Moves().plunge(-13, 34).run(), shop())
        assert [m.state for m in found.matches] == [State.MATCHES, State.MISSING]
        assert [f for f in found.findings if f.stops] == []

    @pytest.mark.parametrize(("by", "told"), [(0.02, []), (0.021, [3])])
    def test_a_spacing_of_grooves_on_a_part_whose_first_is_in_the_face(self, by, told):
        face = (0.0, -4.0, 20.0, {"where": "face", "mouth_diameter": 26.0})
        distance = Distance(start=Place(groove=2, spot="near"), end=Place(groove=3, spot="near"), nominal=10.0)
        the_part = with_distances(part_of([face, (-10, -13, 34), (-20, -23, 34)]), [distance])
        moves = Moves().plunge(-13, 34).plunge(-23 - by, 34).rapid(200, 100)
        found = judge(the_part, moves.run(), shop())
        assert [f.groove for f in found.findings if f.code == "spacing"] == told

    def test_what_is_said(self):
        found = self.verdict(10.3, (0.0, 0.2))
        assert [m.state for m in found.matches] == [State.MATCHES, State.POSITION]
        (stop,) = [f for f in found.findings if f.stops]
        assert (stop.code, stop.groove) == ("spacing", 2)
        assert "lie 10.3 apart, near wall to near wall, where 10 to 10.2 is allowed" in stop.message


@pytest.mark.parametrize(
    ("drawn", "lower", "upper", "radius", "told"),
    [
        (0.5, -0.1, 0.1, 0.4, None),
        (0.5, -0.1, 0.1, 0.398, "corner-smaller"),
        (0.5, -0.1, 0.1, 0.6, None),
        (0.5, -0.1, 0.1, 0.602, "corner-radius"),
        (0.5, 0.0, 0.2, 0.498, "corner-smaller"),
        (0.5, -0.3, -0.1, 0.402, "corner-radius"),
    ],
)
def test_a_corner_radius_has_both_its_limits(drawn, lower, upper, radius, told):
    the_part = part("outside", {"corner_radius": (lower, upper)}, corner_radius=drawn)
    found = judge(the_part, Moves().plunge(-13, 34).run(), shop(tool(corner_radius=radius)))
    assert [f.code for f in found.findings if f.stops] == ([told] if told else [])
