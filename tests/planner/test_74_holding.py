"""How the part is held, how far it gives, how fast it is cut: each figure just inside its limit and just outside.

Deflection: worked out with F = 500 N, d = 20 mm, L = 100 mm and 210 GPa, checked against a beam of finite elements.
"""

import math

import pytest
from support.parts import part_of

from planner import parse_shop, plan_part
from planner.cuts.moves import Setting
from planner.holding import ACROSS, LEAST_GRIP, LONGEST, LONGEST_HELD, MODULUS, deflection, pushed_aside
from planner.reasons import WORTH_TELLING
from planner.steps import Home, Spindle, SpindleClamp, ToolCall, WorkOffset

STEEL = 210e3 * math.pi * 20**4 / 64


@pytest.mark.parametrize(
    ("at", "centre", "micrometres"),
    [
        *((100, False, 101.05), (50, False, 101.05 / 8)),
        # A propped beam gives 7/768 F L^3 / (E I) in the middle and F L^3 / (101.9 E I) at 0.586 L, its worst.
        *((50, True, 2.763), (58.6, True, 303.15 / 101.9), (100, True, 0.0)),
    ],
)
def test_deflection(at, centre, micrometres):
    assert 1000 * deflection(500, at, 100, STEEL, centre=centre) == pytest.approx(micrometres, rel=2e-3, abs=1e-9)


def test_stiffness_by_group():
    # GPa: steel 200 to 210, 304 193, grey iron 67 to 115, aluminium 69 to 73 (the softest of N), Ti6Al4V 114 to 120:
    # handbook values; the softer end is the careful one.
    within = {"P": (200, 210), "M": (193, 200), "K": (67, 115), "N": (69, 73), "S": (110, 120), "H": (200, 210)}
    for group, (low, high) in within.items():
        assert low <= MODULUS[group] / 1e3 <= high, group


def codes(part, machine="", material='name = "C45"', tool="", units="mm"):
    text = (
        f'units = "{units}"\n[machine]\n{machine}\n[material]\n{material}\n[[tools]]\nstation = 3\nwidth = 3.0\n{tool}'
    )
    plan = plan_part(part, parse_shop(f"{text}\nmax_depth = 20\n", "s", units))
    return {f.code: f for f in plan.findings}, plan


PART = part_of([(-10, -13, 36)], length=100)


class TestGrip:
    @pytest.mark.parametrize(("out", "told"), [(100 - 40 * LEAST_GRIP, False), (100.01 - 40 * LEAST_GRIP, True)])
    def test_what_the_drawing_leaves_in_the_jaws(self, out, told):
        found, _ = codes(PART, f"stick_out = {out}")
        assert ("grip-short" in found) is told
        assert not told or "is left in the jaws on 40.000 across" in found["grip-short"].message

    def test_what_the_shop_says(self):
        assert "grip-short" not in codes(PART, "stick_out = 95\ngrip_length = 30")[0]
        assert "grip-short" in codes(PART, "stick_out = 60\ngrip_length = 30\ngrip_diameter = 61")[0]

    def test_a_bar_that_stands_out_farther_than_the_part_is_long_says_nothing(self):
        assert "grip-short" not in codes(PART, "stick_out = 120")[0]


class TestStickOut:
    @pytest.mark.parametrize(("times", "told"), [(LONGEST, False), (LONGEST + 0.01, True)])
    def test_in_jaws_alone(self, times, told):
        part = part_of([(-10, -13, 9)], diameter=10, length=200)
        assert ("stick-out" in codes(part, f"stick_out = {10 * times}")[0]) is told

    @pytest.mark.parametrize(("times", "told"), [(LONGEST_HELD, False), (LONGEST_HELD + 0.01, True)])
    def test_with_a_centre(self, times, told):
        part = part_of([(-10, -13, 9)], diameter=10, length=200)
        assert ("stick-out" in codes(part, f"stick_out = {10 * times}\ntailstock = 4")[0]) is told

    def test_the_least_that_is_needed_where_nobody_says(self):
        far = part_of([(-80, -83, 9)], diameter=10, length=200)
        assert "must stick out at least 8.6 times its least diameter" in codes(far)[0]["stick-out"].message


class TestBending:
    def aside(self, out, width=3.0):
        # Kienzle with kc1.1 1675 and mc 0.24 of C45, feed 0.08; a beam of 10 mm across, E 205 GPa.
        force = ACROSS * 1675 * width * 0.08**0.76
        return force * (out - 11.5) ** 3 / (3 * 205e3 * math.pi * 10**4 / 64)

    def test_the_figure_and_its_limit(self):
        part = part_of([(-10, -13, 9)], diameter=10, length=200)
        # 0.02 mm either way on the diameter is 0.01 mm that the part may give.
        limit = next(out / 100 for out in range(1200, 20_000) if self.aside(out / 100) > 0.01)
        found, _ = codes(part, f"stick_out = {limit + 0.02}")
        assert "bends" in found
        assert "about 0.010 mm aside at groove 1" in found["bends"].message
        assert "bends" not in codes(part, f"stick_out = {limit - 0.03}")[0]

    @pytest.mark.parametrize(
        ("steps", "out", "across"),
        [
            ([(0, 10), (-30, 6)], 30, 10),  # a land that begins in the jaws bends nothing
            ([(0, 10), (-30, 6)], 30.01, 6),
            ([(0, 6), (-11.5, 10)], 40, 10),  # nor does one that ends at the groove's middle or before it
            ([(0, 6), (-11.51, 10)], 40, 6),
            ([(0, 10), (-20, 8), (-25, 9)], 40, 8),  # the thinnest, wherever it lies
            ([(0, 10), (-20, 9), (-25, 8)], 40, 8),
        ],
    )
    def test_the_thinnest_land_between_the_jaws_and_the_groove(self, steps, out, across):
        stepped, plain = part_of([(-10, -13, 5)], steps=steps, length=50), part_of([(-10, -13, 5)], across, 50)
        shop = parse_shop("", "s", "mm")
        aside = [
            pushed_aside(part.grooves[0], shop.tools[0], Setting(part, shop, shop.increments, part), out)
            for part in (stepped, plain)
        ]
        assert aside[0] == pytest.approx(aside[1], rel=1e-12)

    def test_a_fifth_of_what_it_may_give_is_worth_a_word(self):
        part = part_of([(-10, -13, 9)], diameter=10, length=200)
        limit = next(out / 100 for out in range(1200, 20_000) if self.aside(out / 100) > WORTH_TELLING * 0.01)
        told = [codes(part, f"stick_out = {out}")[1].operations[0].why for out in (limit - 0.05, limit + 0.05)]
        assert [any("pushes the part about 0.002 mm aside" in why for why in some) for some in told] == [False, True]

    def test_what_it_bends_decides_between_two_inserts(self):
        part = part_of([(-10, -14, 9, {"tolerances": {"floor_diameter": (-0.03, 0.03)}})], diameter=10, length=60)
        two = 'units = "mm"\n[machine]\nstick_out = {}\n[material]\nname = "C45"\n' + "".join(
            f"[[tools]]\nstation = {n}\nwidth = {w}\nmax_depth = 6\n" for n, w in ((1, 2.0), (2, 4.0))
        )
        used = [plan_part(part, parse_shop(two.format(out), "s", "mm")).operations[0].tool.width for out in (30, 38.0)]
        assert used == [4.0, 2.0]

    def test_power_decides_too(self):
        two = 'units = "mm"\n[machine]\nstick_out = 90\npower = {}\n[material]\nname = "C45"\n' + "".join(
            f"[[tools]]\nstation = {n}\nwidth = {w}\nmax_depth = 6\n" for n, w in ((1, 2.0), (2, 4.0))
        )
        # 120 m/min and 1675 * 4 * 0.08^0.76 N: 1.97 kW.
        part = part_of([(-10, -14, 36)])
        used = [plan_part(part, parse_shop(two.format(kw), "s", "mm")).operations[0].tool.width for kw in (1.98, 1.95)]
        assert used == [4.0, 2.0]


class TestBlade:
    """A plate h high and t thick that stands out L: 4 F L^3 / (E t h^3) down, 4 F L^3 / (E h t^3) aside."""

    FORCE = 1675 * 0.2**0.76  # Kienzle, C45, a feed of 0.2, a millimetre of width

    def told(self, reach, height=0.0, width=2.0, spot=(-10, -12, 30), more=""):
        blade = f"blade_height = {height}\n" if height else ""
        text = f"[[tools]]\nstation = 1\nwidth = {width}\nfeed = 0.2\nmax_depth = {reach}\n{blade}"
        shop = parse_shop(f'units = "mm"\n[machine]\nstick_out = 50\n[material]\nname = "C45"\n{text}{more}', "s", "mm")
        plan = plan_part(part_of([spot], length=80, diameter=60 if more else 40), shop)
        assert not plan.stopped, plan.findings
        return {f.code: f.message for f in plan.findings}, plan

    @pytest.mark.parametrize("height", [0.0, 20.0, 32.0])
    def test_down_as_far_as_an_edge_may_lie_below_the_centre(self, height):
        taken = height or 26.0
        # 0.1 mm: the centre's height as tool catalogues have it. The blade is 0.8 of the width thick.
        limit = (0.1 * 210e3 * 1.6 * taken**3 / (4 * 2 * self.FORCE)) ** (1 / 3)
        assert "blade-bends" not in self.told(0.999 * limit, height)[0]
        said = self.told(1.001 * limit, height)[0]["blade-bends"]
        assert f"{taken:.3f} mm high{'' if height else ', taken as high as most are'}, gives about 0.10" in said
        assert "below the centre" in said

    def test_aside_where_metal_stands_on_one_side(self):
        # Two plunges 0.8 mm apart; +-0.02 on the width of 2.8 leaves 0.01 mm to a wall. A tenth of the force pushes.
        limit = (0.01 * 210e3 * 26 * 1.6**3 / (4 * 0.1 * 2 * self.FORCE)) ** (1 / 3)
        spot = (-10, -12.8, 38)
        assert "blade-bends" not in self.told(0.998 * limit, 26, spot=spot)[0]
        found, plan = self.told(1.002 * limit, 26, spot=spot)
        assert "0.010 mm aside in its second plunge, where its wall allows 0.010 mm" in found["blade-bends"]
        assert any("and 0.010 mm aside where metal stands" in why for why in plan.operations[0].why)
        assert "blade-bends" not in self.told(1.002 * limit, 26, spot=(-10, -12, 38))[0], "a full plunge is even"
        assert "blade-bends" not in self.told(1.002 * limit, spot=spot)[0], "nobody says that it is a blade"

    def test_a_blade_that_gives_too_much_is_left_for_another(self):
        more = "[[tools]]\nstation = 2\nwidth = 2.0\nfeed = 0.1\nmax_depth = 30\n"
        assert [
            self.told(reach, more=more, spot=(-10, -12, 44))[1].operations[0].tool.station for reach in (31, 70)
        ] == [1, 2]


class TestSpeed:
    @pytest.mark.parametrize(("speed", "told"), [(300, False), (301, True), (1200, True)])
    def test_a_slipped_digit(self, speed, told):
        # 1.5 times the 200 m/min that carbon steel is grooved at (catalogues).
        assert ("speed-high" in codes(PART, material=f'name = "C45"\ncutting_speed = {speed}')[0]) is told

    def test_nothing_is_known_of_a_material_that_nobody_knows(self):
        text = 'name = "unobtainium"\ncutting_speed = 1200\nspecific_cutting_force = 900'
        assert "speed-high" not in codes(PART, material=text)[0]


class TestHead:
    def test_the_clamp_is_no_higher_than_the_least_diameter_asks_for(self):
        big = part_of([(-10, -13, 290)], diameter=300, length=200)
        # n = 1000 vc / (pi D) with 120 m/min on 290: 131.7, rounded up to ten.
        assert [s.rpm for s in codes(big)[1].steps if isinstance(s, SpindleClamp)] == [140]
        small = part_of([(-4, -7, 4)], diameter=10, length=30)
        assert [s.rpm for s in codes(small)[1].steps if isinstance(s, SpindleClamp)] == [3000]

    @pytest.mark.parametrize(
        ("floor", "clamp"), [(34.72, 1200), (34.73, 1100), (38.18, 1100), (38.21, 1000), (290, 140), (400, 100)]
    )
    def test_a_clamp_is_a_figure_of_two_digits(self, floor, clamp):
        # 1000 * 120 / pi = 38,197: 1100.2 on 34.72, 1099.8 on 34.73, 1000.4 on 38.18, 999.7 on 38.21, 95.5 on 400.
        part = part_of([(-10, -13, floor)], diameter=floor + 6, length=200)
        assert [s.rpm for s in codes(part)[1].steps if isinstance(s, SpindleClamp)] == [clamp]

    def test_the_offset_is_cancelled_at_the_end(self):
        plan = codes(PART)[1]
        assert plan.after[-1] == ToolCall(3, 0)

    def test_the_reference_point_and_a_work_offset(self):
        plan = codes(PART, 'retreat = "reference"\nwork_offset = 2')[1]
        assert plan.before[:3] == (WorkOffset(2), Home(x=True, z=False), Home(x=False, z=True))
        assert plan.after[:2] == (Home(x=True, z=False), Home(x=False, z=True))

    def test_the_sense_of_the_spindle(self):
        senses = {s: codes(PART, tool=s and f'spindle = "{s}"')[1] for s in ("", "cw", "ccw")}
        turns = {s: [one.clockwise for one in plan.steps if isinstance(one, Spindle)] for s, plan in senses.items()}
        assert turns == {"": [True], "cw": [True], "ccw": [False]}
