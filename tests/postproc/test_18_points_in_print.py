"""What a setter looks for in a program, in every dialect and in the printed text alone.

The oracle is the little reader below, which knows words and nothing of the tool: every stroke with its place and feed,
cycles taken apart by the words of the trade (a first block R for the retract; P or I the peck, Q or K the shift, whole
ones in thousandths). Figures beside each check are published ones or common practice, as named there.
"""

import random
import re
from itertools import pairwise
from typing import NamedTuple

import pytest
from support.parts import part_of, row

from planner import parse_shop, plan_part
from postproc import Heading, compare_program, dialects, write_program

TONGUES = pytest.mark.parametrize("name", dialects())
MOVES = ("00", "01", "02", "03", "75", "1")
WORD = re.compile(r"([A-Z])(-?\d*\.?\d+)")
THREE = "[[tools]]\nstation = 3\nwidth = 3.0\ncorner_radius = 0.2\nmax_depth = 20\nholder_near = 2\nholder_far = 2\n"


OUT = "stick_out = 50\ngrip_length = 20"


class Stroke(NamedTuple):
    """One move at feed, or a whole cycle: G word, place before it and after it, and all its words."""

    code: int
    start: tuple[float, float]
    end: tuple[float, float]
    words: dict[str, str]

    @property
    def feed(self) -> float:
        """As the block says it."""
        return float(self.words["F"])


class Printed(NamedTuple):
    """A program as it is printed: its text, its strokes in order, tool calls, surface speeds and what was found."""

    text: str
    strokes: list[Stroke]
    tools: list[str]
    speeds: list[int]
    cautions: list[str]
    agrees: bool

    def at(self, x: float) -> list[Stroke]:
        """The strokes that end on a diameter."""
        return [stroke for stroke in self.strokes if stroke.end[0] == x]


def strokes_of(text: str) -> list[Stroke]:
    """All strokes; a word that stands is filled in."""
    found, x, z, code, feed = [], 0.0, 0.0, 0, "0"
    for line in text.splitlines():
        words = dict(WORD.findall(re.sub(r"\(.*?\)", "", line)))
        if {"X", "Z", "G"} & set(words) and words.get("G", "1") in MOVES:
            code = int(words.get("G", code))
            if code == 75 and not {"X", "Z"} & set(words):
                continue
            feed = words.get("F", feed)
            before, to = (x, z), (float(words.get("X", x)), float(words.get("Z", z)))
            if code:
                found.append(Stroke(code, before, to, words | {"F": feed}))
            x, z = before if code == 75 else to
    return found


def peck_of(stroke: Stroke) -> float:
    """The radial peck of a cycle's block in mm."""
    return float(stroke.words["P"]) / 1000 if "P" in stroke.words else float(stroke.words["I"])


PLANNED: dict = {}


def planned(part, text: str, cycles: str):
    """One plan for all dialects whose controls have the same cycle."""
    key = repr((part, text, cycles))
    if key not in PLANNED:
        PLANNED[key] = plan_part(part, parse_shop(text, "s", "mm"), cycles=cycles)
    return PLANNED[key]


def printed(name: str, spots, tools: str = THREE, material: str = "C45", machine: str = OUT, **part) -> Printed:
    """The program for a part with these grooves; nothing but the text is looked at later."""
    dialect, made = dialects()[name], part_of(spots, **part)
    shop = f'units = "mm"\n[machine]\n{machine}\n[material]\nname = "{material}"\n{tools}'
    plan = planned(made, shop, dialect.cycles)
    assert not plan.stopped, plan.findings
    text = write_program(plan, dialect, Heading("a.dxf", "0" * 64)).text
    verdict = compare_program(made, text, plan.shop, dialect)
    findings = (*plan.findings, *verdict.findings)
    return Printed(
        text,
        strokes_of(text),
        re.findall(r"^T(\d\d)\1$", text, re.M),
        [int(word) for word in re.findall(r"^G96 S(\d+)", text, re.M)],
        [f"{f.code}: {f.message}" for f in findings if f.level == "caution"],
        verdict.agree,
    )


@TONGUES
@pytest.mark.parametrize(
    ("material", "slow", "fast", "feed"),
    [
        # Grooving catalogues of 2016 and 2021; titanium and hardened: starting values for turning, from memory.
        *(("C45", 80, 200, 0.15), ("1.4301", 60, 150, 0.15), ("EN-GJL-250", 70, 200, 0.20), ("AlMgSi1", 200, 500, 0.2)),
        *(("CuZn39Pb3", 100, 300, 0.15), ("TiAl6V4", 20, 70, 0.1), ("100Cr6, hardened 60 HRC", 20, 80, 0.1)),
    ],
)
def test_1_speed_and_feed_are_those_of_the_material(name, material, slow, fast, feed):
    found = printed(name, [(-10, -13, 34)], material=material)
    assert len(found.speeds) == 1
    assert slow <= found.speeds[0] <= fast
    assert {stroke.feed <= feed for stroke in found.strokes} == {True}
    assert f"FOR {material.split(',')[0].upper()}" in found.text


@TONGUES
def test_3_a_speed_ten_times_too_high_is_told(name):
    found, dialect = printed(name, [(-10, -13, 34)]), dialects()[name]
    fast = re.sub(r"^G96 S120", "G96 S1200", found.text, flags=re.M)
    assert fast != found.text
    verdict = compare_program(part_of([(-10, -13, 34)]), fast, parse_shop(f'units = "mm"\n{THREE}', "s", "mm"), dialect)
    assert any("1200" in f.message and "cutting speed" in f.message.lower() for f in verdict.findings), verdict.findings


@TONGUES
def test_5_no_pecks_down_to_the_width_in_steel_and_iron(name):
    for material, floor, pecked in (("C45", 34, False), ("C45", 33.8, True), ("GG25", 34, False), ("1.4301", 34, True)):
        found = printed(name, [(-10, -13, floor)], material=material)
        down = [stroke for stroke in found.strokes if stroke.end[0] < stroke.start[0]]
        if down[0].code == 75:
            (cycle,) = down
            assert (peck_of(cycle) == 1.0) is pecked
            assert pecked or peck_of(cycle) == (cycle.start[0] - floor) / 2
            # A fifth of the peck (common practice, no source), where the control takes it from the program.
            assert "G75 R0.2" in found.text or ("SET BY THE CONTROL" in found.text) is pecked
        else:
            assert (len(down) > 1) is pecked
            depths = [40.0, *(stroke.end[0] for stroke in down)]
            assert all(one - two <= 2.0 + 1e-9 for one, two in pairwise(depths)) or not pecked
            assert all(stroke.start[0] == before.end[0] + 0.4 for before, stroke in pairwise(down))


@TONGUES
def test_6_one_plunge_for_a_round_insert_and_one_stay_at_a_floor(name):
    ball = '[[tools]]\nstation = 4\nwidth = 4.0\nedge = "round"\nmax_depth = 16\n'
    found = printed(name, [(-10, -14, 36, {"shape": "round", "corner_radius": 2.0})], ball)
    assert [(stroke.end, stroke.start[1]) for stroke in found.strokes] == [((36.0, -14.0), -14.0)]
    limits = {"tolerances": {"floor_diameter": (-0.1, 0.1)}}
    found = printed(name, [(-10, -13, 34, limits), (-20, -23, 34, limits)], f"{THREE}dwell = 3\n")
    assert [stroke.end for stroke in found.at(34.0)] == [(34.0, -13.0), (34.0, -23.0)]
    lines = found.text.splitlines()
    stays = [n for n, line in enumerate(lines) if re.match(r"G04 ", line)]
    assert [lines[n - 1].split()[1] for n in stays] == ["X34.", "X34."], "it stays where the last stroke ends"
    # Three turns at 120 m/min on 34 across: 60 * 3 pi 34 / 120,000 s.
    waits = {float(re.search(r"[XUPF](\d*\.?\d+)", lines[n].removeprefix("G04"))[1]) for n in stays}
    assert waits <= {0.16, 160.0}, waits


@TONGUES
def test_6_no_way_back_over_a_row_that_is_written_out(name):
    found = printed(name, row(5, -8, 7, 3, 34))
    if dialects()[name].cycles == "none":
        assert [stroke.end[1] for stroke in found.at(34.0)] == [-11.0, -18.0, -25.0, -32.0, -39.0]
    else:
        assert [(stroke.start[1], stroke.end[1]) for stroke in found.at(34.0)] == [(-11.0, -39.0)]


TWO = "[[tools]]\nstation = 2\nwidth = 1.8\ncorner_radius = 0.1\nmax_depth = 8\n"


@TONGUES
@pytest.mark.parametrize(("prefer", "tools"), [("time", {"02", "03"}), ("blocks", {"02", "03"}), ("tools", {"02"})])
def test_7_what_is_spared_decides_the_tools(name, prefer, tools):
    spots = [*row(6, -4, 6, 3, 35), (-42, -43.8, 38)]
    found = printed(name, spots, THREE + TWO, machine=f'{OUT}\nprefer = "{prefer}"')
    assert set(found.tools) == tools
    assert found.agrees


@TONGUES
def test_7_a_second_insert_is_worth_a_word(name):
    dialect = dialects()[name]
    machine = '[machine]\nstick_out = 50\nbatch = 40\nprefer = "tools"\n[material]\nname = "C45"\n'
    shop = f'units = "mm"\n{machine}{THREE}{TWO}'
    plan = planned(part_of([*row(6, -4, 6, 3, 35), (-42, -43.8, 38)]), shop, dialect.cycles)
    (note,) = [f for f in plan.findings if f.code == "tool-saves"]
    # Six grooves in one plunge each instead of two: six times 2.5 mm and the millimetre above at 0.08 and 120 m/min.
    least = 40 * (6 * 1.8 - 3) / 60
    saved = int(re.search(r"save (\d+) min a batch of 40", note.message)[1])
    assert note.message.startswith("T0303 for grooves 1 to 6")
    assert least < saved < 3 * least


@TONGUES
@pytest.mark.parametrize(
    ("drawn", "limits", "floors"),
    [
        # 34.00 to 34.10 has 34.03 to 34.10 in common with 34.03 to 34.13; all of it with 34.1 0/-0.1.
        *((34.03, (0.0, 0.1), [34.065]), (34.1, (-0.1, 0.0), [34.05])),
        # A third of the room either way is for the wear of the edge: what is left in common no longer holds both.
        *((34.058, (0.0, 0.1), [34.079]), (34.062, (0.0, 0.1), [34.05, 34.112])),
    ],
)
def test_8_overlapping_limits_share_one_floor_in_the_middle(name, drawn, limits, floors):
    spots = [(-8, -11, 34.0, {"tolerances": {"floor_diameter": (0.0, 0.1)}})]
    found = printed(name, [*spots, (-18, -21, drawn, {"tolerances": {"floor_diameter": limits}})])
    assert sorted({stroke.end[0] for stroke in found.strokes}) == pytest.approx(floors, abs=0.0011)
    assert len([stroke for stroke in found.strokes if stroke.code == 75]) in (0, len(floors))
    assert found.agrees


@TONGUES
def test_11_a_chamfer_is_a_slope_of_45_degrees(name):
    found = printed(name, [(-10, -13, 34, {"edge_chamfer": 0.5})])
    slopes = [one for one in found.strokes if one.code == 1 and one.start[1] != one.end[1]]
    assert len(slopes) == 2
    for one in slopes:
        out, down = one.start[1] - one.end[1], (one.start[0] - one.end[0]) / 2
        assert one.end[1] == -13.0
        assert down == pytest.approx(abs(out))
        # The corner's arc of 0.2 touches the line from the land at 0.5 out to the wall 0.5 down, on either side.
        wall, sense = (-10, 1) if out > 0 else (-13, -1)
        middle = (wall - sense * 0.2, one.end[0] / 2 + 0.2)
        line = (wall + sense * 0.5 - middle[0]) * sense - (20 - middle[1])
        assert abs(line) / 2**0.5 == pytest.approx(0.2, abs=0.001)


@TONGUES
def test_12_a_plain_part_in_a_shop_that_says_all_has_no_caution(name):
    limits = {"tolerances": {"floor_diameter": (-0.1, 0.0), "width": (0.0, 0.14)}}
    more = [
        [(-10, -13, 34, limits)],
        [(-10, -13.5, 38, {"edge_chamfer": 0.3})],
        [(-10, -13, 39.0, {"edge_chamfer": 0.2})],
    ]
    for spots in ([(-10, -13, 34)], row(4, -10, 8, 3, 35), [(-10, -18, 36)], [(-10, -13, 30)], *more):
        found = printed(name, spots)
        assert found.agrees
        assert found.cautions == []


def test_12_nor_has_any_of_many_plain_parts():
    # Drawn by chance: widths and depths of rings and seals, chamfers, deviations; in the materials of the trade.
    inserts = "".join(
        f"[[tools]]\nstation = {n}\nwidth = {w}\ncorner_radius = 0.1\nmax_depth = 12\nfeed = {min(0.1, 0.03 * w):.3f}\n"
        f"peck = {w / 3:.2f}\nholder_near = 2\nholder_far = 2\n"
        for n, w in enumerate((1.1, 1.3, 1.6, 1.85, 2.15, 3.0, 4.0), start=1)
    )
    made = 0
    for seed in range(14):
        chance = random.Random(seed)
        across, place, spots = chance.choice([30, 40, 60, 80]), -chance.uniform(4, 10), []
        while place > -2 * across + 40:
            width = chance.choice([1.1, 1.3, 1.85, 2.15, 3, 4, 5, 6.5])
            depth, more = min(width, chance.choice([0.5, 0.75, 1, 1.5, 2.5])), {}
            if chance.random() < 0.5:
                more["tolerances"] = {"floor_diameter": (-0.1, 0.0)}
            if chance.random() < 0.3:
                more["edge_chamfer"] = chance.choice([0.2, 0.3])
            spots.append((round(place, 2), round(place - width, 2), across - 2 * depth, more))
            place -= width + chance.uniform(5, 12)
        if not spots:
            continue
        machine = f"stick_out = {2 * across - 18}\ngrip_length = {across}"
        material = chance.choice(["C45", "1.4301", "GG25", "AlMgSi1", "CuZn39Pb3"])
        found = printed("two-block", spots, inserts, material, machine, diameter=across, length=2 * across)
        assert found.agrees, (seed, found.cautions)
        assert found.cautions == [], seed
        made += 1
    assert made > 8


@TONGUES
def test_13_what_bends_the_part_is_left_for_a_narrower_insert(name):
    four = "[[tools]]\nstation = 4\nwidth = 4.0\ncorner_radius = 0.2\nmax_depth = 20\nholder_near = 2\nholder_far = 2\n"
    tight = {"tolerances": {"floor_diameter": (-0.03, 0.03)}}
    # A bar of 10 gives F L^3 / (3 E I), F 0.4 of 1675 b 0.08^0.76 N, L from the jaws to the groove's middle: 4 wide
    # that is 0.0139 mm on 22 mm and 0.0180 on 24, 3 wide 0.0135 on 24; 0.015 is allowed, a quarter of the floor's 0.06.
    for out, tool in ((34, "04"), (36, "03")):
        found = printed(
            name, [(-10, -14, 9, tight)], THREE + four, machine=f"stick_out = {out}\ngrip_length = 20",
            diameter=10, length=70,
        )  # fmt: skip
        assert found.tools == [tool]
