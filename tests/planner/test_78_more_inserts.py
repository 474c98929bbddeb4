"""One insert more in the turret never makes a part unmakeable: what is in its way leaves the choice to the others."""

import random
from dataclasses import replace
from itertools import combinations

import pytest
from support.parts import part_of

from planner import parse_shop, plan_part
from planner.cuts.moves import Setting
from planner.room import lies_in_jaws

SHOP = """
units = "mm"
[machine]
max_rpm = 3000
jaw_gap = 3.0
tolerance = 0.02
sharp_corner = 0.2
{machine}
[material]
name = "C45"
{tools}
"""


def shop_of(tools, machine=""):
    """A shop with these tools, each a text of keys, from station 1 on."""
    inserts = "".join(f"[[tools]]\nstation = {n}\n{keys}\n" for n, keys in enumerate(tools, 1))
    return parse_shop(SHOP.format(tools=inserts, machine=machine), "shop", "mm")


NARROW = "width = 2.0\nmax_depth = 12\nholder_far = 0.0\n"
FAST = "width = 3.0\nmax_depth = 14\nfeed = 0.2\nholder_far = 4.0\n"
HEAVY = "width = 3.0\nmax_depth = 12\nfeed = 0.3\nholder_far = 0.0\n"
SHORT = "width = 3.0\nmax_depth = 12\nfeed = 0.2\nholder_far = 0.0\noverhang = 12.0\n"
INNER = "width = 3.0\nmax_depth = 12\nwhere = 'inside'\n"


@pytest.mark.parametrize(
    ("other", "machine", "code"),
    [
        (FAST, "stick_out = 36.5", "jaws"),
        (HEAVY, "power = 3.0", "power"),
        (SHORT, "", "turret"),
    ],
)
def test_an_insert_with_something_in_its_way_is_not_taken(other, machine, code):
    """The quicker insert alone would be stopped, so the other one cuts; without what is in its way, it would."""
    part = part_of([(-10, -13, 34), (-30, -33, 34)], steps=((0.0, 40.0), (-34.0, 60.0)))
    alone = plan_part(part, shop_of([other], machine))
    assert {one.code for one in alone.findings if one.stops} == {code}
    plan = plan_part(part, shop_of([NARROW, other], machine))
    assert not plan.stopped
    assert {operation.tool.station for operation in plan.operations if 2 in operation.grooves} == {1}
    free = plan_part(part, shop_of([NARROW, other.replace("overhang = 12.0", "overhang = 30.0")], ""))
    assert {operation.tool.station for operation in free.operations} == {2}
    # The note that names a tool which would save time doesn't name this one.
    assert not [one.message for one in plan.findings if one.code == "tool-saves" and "T0202" in one.message]


def test_only_the_grooves_in_question_are_given_to_another_insert():
    part = part_of([(-10, -13, 34), (-30, -33, 34)])
    plan = plan_part(part, shop_of([NARROW, FAST], "stick_out = 36.5\ntool_change = 0.1"))
    assert {number: operation.tool.station for operation in plan.operations for number in operation.grooves} == {
        1: 2,
        2: 1,
    }


def test_where_no_insert_has_room_the_stop_says_what_is_needed():
    part = part_of([(-10, -13, 34), (-30, -33, 34)])
    plan = plan_part(part, shop_of([NARROW, FAST], "stick_out = 35.0"))
    (stop,) = [one for one in plan.findings if one.stops]
    assert (stop.code, stop.groove) == ("jaws", 2)


def test_a_groove_that_lies_in_the_jaws_keeps_no_other_from_its_insert():
    """The second groove has room with the insert whose holder stands out less; the third has none with any."""
    part = part_of([(-10, -13, 34), (-30, -33, 34), (-45, -48, 34)], length=80)
    plan = plan_part(part, shop_of([NARROW, FAST], "stick_out = 36.5\ntool_change = 0.1"))
    (stop,) = [one for one in plan.findings if one.stops]
    assert (stop.code, stop.groove) == ("jaws", 3)
    assert " too)" not in stop.message


@pytest.mark.parametrize(("stick_out", "lies"), [(34.4, True), (34.6, False)])
def test_a_groove_lies_in_the_jaws_where_the_middle_of_its_floor_does(stick_out, lies):
    """The jaws with their gap of 3 begin at Z-31.4 and Z-31.6, and the middle is at Z-31.5."""
    part = part_of([(-30, -33, 34)])
    shop = shop_of([NARROW], f"stick_out = {stick_out}")
    assert lies_in_jaws(part.grooves[0], Setting(part, shop, shop.increments, part)) is lies
    bore = part_of([(-30, -33, 24, {"where": "inside"})], bore=20)
    assert not lies_in_jaws(bore.grooves[0], Setting(bore, shop, shop.increments, bore))
    free = shop_of([NARROW])
    assert not lies_in_jaws(part.grooves[0], Setting(part, free, free.increments, part))


def test_an_insert_that_asks_for_an_answer_does_not_take_the_place_of_one_without_room():
    """The corner of the other one is smaller than drawn: the stop stays what it is with the first alone."""
    part = part_of([(-10, -13, 34), (-30, -33, 34, {"corner_radius": 0.8})])
    round_cornered = FAST + "corner_radius = 0.8\n"
    for tools in ([NARROW, FAST, round_cornered], [NARROW, round_cornered]):
        plan = plan_part(part, shop_of(tools, "stick_out = 36.5"))
        assert {one.code for one in plan.findings if one.stops} == {"jaws"}


def _some_part(dice):
    """A stepped bar of one to four grooves."""
    spots, z = [], -dice.uniform(3, 8)
    for _ in range(dice.randint(1, 4)):
        width, deep = dice.choice([1.3, 2.0, 3.0]), dice.choice([1.0, 2.5, 4.0])
        extra = {"edge_chamfer": dice.choice([0.0, 0.0, 0.3])}
        spots.append((round(z, 3), round(z - width, 3), 40 - 2 * deep, extra))
        z -= width + dice.uniform(1.0, 6.0)
    back = dice.choice([40.0, 40.0, 44.0, 52.0])
    return part_of(spots, steps=((0.0, 40.0), (round(z - 1, 3), back)), length=60 - z), spots[-1][1]


def _some_insert(dice):
    """The keys of an insert for the outside."""
    keys = {
        "width": dice.choice([1.0, 1.3, 2.0]),
        "corner_radius": dice.choice([0.0, 0.1, 0.2]),
        "max_depth": dice.choice([6.0, 18.0]),
        "feed": dice.choice([0.05, 0.1, 0.25]),
        "finish": dice.choice([0.0, 0.1]),
        "holder_far": dice.choice([0.0, 0.5, 2.0]),
        "holder_near": dice.choice([0.0, 2.0]),
        "overhang": dice.choice([0.0, 0.0, 6.0, 20.0]),
        "reference": dice.choice(['"near"', '"far"']),
    }
    return "".join(f"{key} = {value}\n" for key, value in keys.items())


@pytest.mark.parametrize("seed", range(30, 40))
def test_any_insert_more_leaves_a_made_part_made(seed):
    """Random parts whose last groove lies near the jaws, random turrets: what some inserts make, one more makes too."""
    dice = random.Random(seed)
    part, last = _some_part(dice)
    machine = f"stick_out = {round(-last + 3 + dice.choice([0.0, 0.004, 0.5, 1.0, 2.0]), 3)}\n"
    machine += dice.choice(["", "power = 2.0\n", "tailstock = 12.0\n"])
    shop = shop_of([_some_insert(dice) for _ in range(3)], machine)
    made = {
        frozenset(some)
        for count in (1, 2, 3)
        for some in combinations(range(3), count)
        if not plan_part(part, replace(shop, tools=tuple(shop.tools[n] for n in some))).stopped
    }
    lost = [(sorted(some), n) for some in made for n in range(3) if some | {n} not in made]
    assert lost == []
