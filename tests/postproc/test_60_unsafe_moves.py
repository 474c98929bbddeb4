"""Moves that hurt are named with their line; those that only look like it are not.

Outside check: the area of metal that a move goes through, by polygons (shapely).
"""

import random

import pytest
from shapely import box
from support.moves import Moves, shop, tool
from support.parts import part_of, row
from support.programs import run_of
from support.slow_cut import AIR, hits, metal_of, swept_by

from planner import parse_shop
from postproc import judge

PART = part_of([(-10, -13, 34)])
SHOULDER = part_of([(-27, -30, 34, {"shape": "relief"})], steps=[(0, 40), (-30, 60)])


def codes(part, moves: Moves, *tools, level: str = "stop", **machine) -> set[tuple[str, int | None]]:
    found = judge(part, moves.run(), shop(*(tools or (tool(),)), **machine))
    return {(f.code, f.line) for f in found.findings if f.level.value == level}


def everything(part, moves: Moves, *tools, **machine) -> set[tuple[str, int | None]]:
    found = judge(part, moves.run(), shop(*(tools or (tool(),)), **machine))
    return {(f.code, f.line) for f in found.findings}


def test_rapid_into_solid():
    assert codes(PART, Moves().rapid(42).rapid(None, -13).rapid(34)) == {("rapid-into-material", 3)}


def test_rapid_through_the_part_to_the_start():
    assert codes(PART, Moves().rapid(38).rapid(None, -13).feed(34).rapid(42)) == {("rapid-into-material", 2)}


def test_rapid_sideways_out_of_a_groove():
    assert codes(PART, Moves().rapid(42, -13).feed(34).rapid(200, 100)) == {("rapid-into-material", 3)}


def test_rapid_through_a_shoulder():
    moves = Moves().rapid(42, -30).feed(34).rapid(42).rapid(None, -40)
    assert ("rapid-into-material", 4) in codes(SHOULDER, moves, tool(max_depth=15.0))


def test_one_mistake_is_told_once():
    moves = Moves().rapid(42, -13).rapid(34).rapid(42).rapid(34).rapid(42)
    assert codes(PART, moves) == {("rapid-into-material", 2)}


def test_what_a_rapid_ran_into_is_no_groove():
    assert judge(PART, Moves().rapid(42, -13).rapid(34).run(), shop()).matches[0].state.value == "missing"


@pytest.mark.parametrize(
    "moves",
    [
        Moves().rapid(42).rapid(None, -13).feed(34).rapid(42).rapid(200, 100),
        Moves().rapid(42, -13).feed(38).rapid(39).rapid(38.2).feed(34).rapid(42),
        Moves().rapid(42, -13).feed(34).feed(42),
        Moves().rapid(42, -13).feed(34).rapid(41.9).rapid(200, None).rapid(None, 100),
        Moves().rapid(42, -13).feed(38).rapid(38).feed(34).rapid(36).rapid(34.1).rapid(42),
    ],
    ids=["plain", "pecks", "fed-out", "out-then-back", "at-rapid-in-the-cut"],
)
def test_rapids_in_the_open_are_fine(moves):
    assert everything(PART, moves) == set()


def test_rapid_along_a_floor_that_was_turned():
    part = part_of([(-10, -20, 34)])
    moves = Moves().rapid(42, -20).feed(36).rapid(42).rapid(None, -17)
    for z in (-20, -18, -16, -14, -13):
        moves.rapid(42, z).feed(34).rapid(42)
    moves.rapid(42, -20).rapid(34.1).rapid(None, -13).rapid(42)
    assert everything(part, moves) == set()


def test_a_start_on_the_land_is_a_caution():
    assert codes(PART, Moves().rapid(40, -13).feed(34).rapid(42), level="caution") == {("no-clearance", 1)}
    assert not codes(PART, Moves().rapid(40, -13).feed(34).rapid(42))


@pytest.mark.parametrize(("x", "told"), [(40, True), (40.03, False)])
def test_a_rapid_that_slides_along_the_land_is_a_caution(x, told):
    part = part_of([(-10, -13, 34), (-20, -23, 34)])
    moves = Moves().rapid(42, -13).feed(34).rapid(x).rapid(None, -23).feed(34).rapid(42)
    assert (("no-clearance", 4) in codes(part, moves, level="caution")) is told
    assert not codes(part, moves)


def test_a_hair_within_the_tolerance_is_touched_not_hit():
    assert not codes(PART, Moves().rapid(39.99, -13).feed(34).rapid(42))
    assert codes(PART, Moves().rapid(39.9, -13).feed(34).rapid(42)) == {("rapid-into-material", 1)}


def test_a_loose_tolerance_lets_no_rapid_into_metal():
    low = Moves().rapid(39.9, -13).feed(34).rapid(42)
    assert codes(PART, low, tolerance=0.3) == {("rapid-into-material", 1)}


def test_a_rapid_that_may_bend_through_a_shoulder_is_a_caution():
    part = part_of([(-40, -43, 30)], steps=[(0, 60), (-30, 40)])
    moves = Moves(200, 100).rapid(80).rapid(None, -31).rapid(42, -43)
    assert ("rapid-bends", 3) in codes(part, moves.feed(30).rapid(200), level="caution")


@pytest.mark.parametrize(
    ("start", "end", "level"),
    [
        # A collar of 60 before Z-30, the insert 3 wide and in front of its place: its front edge is free of the collar
        # once Z is -33. From Z-22.9 that is 10.1 further, and X80 is X59.8 by then; from Z-23.1 it is X60.2.
        ((80, -22.9), (41, -60), "stop"),
        ((80, -23.1), (41, -60), "caution"),
        # Up and out: 9.4 along to the collar, and X41 is X59.8 by then; 9.6 along, and it is X60.2.
        ((41, -42.4), (200, 20), "stop"),
        ((41, -42.6), (200, 20), "caution"),
        # At one speed to the end of the shorter axis.
        ((41, -42.4), (200, -30), "stop"),
        # Higher than the collar all the way.
        ((80, -20), (62, -60), None),
        # As deep as a touch, 0.02 on the diameter, and a count deeper.
        ((80, -22.99), (41, -60), "caution"),
        ((80, -22.989), (41, -60), "stop"),
    ],
)
def test_a_rapid_that_bends_into_a_shoulder_with_both_axes_at_one_speed_is_a_stop(start, end, level):
    part = part_of([(-40, -43, 30)], steps=[(0, 60), (-30, 40)])
    moves = Moves().rapid(80).rapid(None, start[1]).rapid(start[0]).rapid(*end)
    for one in ("stop", "caution"):
        assert (("rapid-bends", 4) in codes(part, moves, level=one)) is (one == level)


@pytest.mark.parametrize(("z", "end", "told"), [(-29.9, 40.2, False), (-30.1, 40.2, True), (-30.1, 39.98, True)])
def test_a_tool_followed_as_a_point_bends_too(z, end, told):
    """From X80 at Z-20 down: 10 along to where the collar of 60 ends, and the point is at X60 there."""
    part = part_of([(-50, -53, 30)], steps=[(0, 60), (z, 40)])
    moves = Moves(station=9, offset=9).rapid(80).rapid(None, -20).rapid(end, -60)
    assert (("rapid-bends", 3) in codes(part, moves)) is told


def test_a_start_that_the_program_never_said_is_far_out_and_far_in_front():
    """From a reference point both axes at once: only the end is sure, and no way past a part in between is."""
    moves = Moves(30, -20).rapid(42, -13, x0_known=False, z0_known=False).feed(34).rapid(42)
    assert everything(PART, moves) == set()
    into = Moves(30, -20).rapid(36, -13, x0_known=False, z0_known=False)
    assert codes(PART, into) == {("rapid-into-material", 1)}
    collar = part_of([(-40, -43, 30)], steps=[(0, 60), (-30, 40)])
    past = Moves(30, -20).rapid(42, -43, x0_known=False, z0_known=False).feed(30).rapid(70)
    assert codes(collar, past) == {("rapid-bends", 1)}


def test_one_axis_at_a_time_from_the_reference_point():
    """G28, then X below the land, then Z: the second move goes into the front face."""
    low = Moves(30, -20).rapid(38, 1_000, x0_known=False, z0_known=False).rapid(None, -13, z0_known=False)
    assert codes(PART, low) == {("rapid-into-material", 2)}
    (finding,) = judge(PART, low.run(), shop()).findings
    assert finding.message.startswith("The rapid to X38. Z-13. runs 1 deep into metal; go round it")
    high = Moves(30, -20).rapid(42, 1_000, x0_known=False, z0_known=False).rapid(None, -13, z0_known=False)
    assert everything(PART, high.feed(34).rapid(42)) == set()


def test_a_cut_that_starts_in_metal():
    moves = Moves(36, -13).feed(34).rapid(42)
    assert codes(PART, moves) == {("start-below-land", 1), ("zero-beside-part", 1)}
    # Where nothing says where it starts, it is not said to start in metal.
    for axis in ("x0_known", "z0_known"):
        assert ("start-below-land", 1) not in codes(PART, Moves(36, -13).feed(34, **{axis: False}).rapid(42))


def test_deeper_than_the_insert_reaches():
    assert codes(PART, Moves().plunge(-13, 34), tool(max_depth=2.9)) == {("beyond-reach", 2)}
    assert not codes(PART, Moves().plunge(-13, 34), tool(max_depth=3.0))


def test_the_turret_comes_down_on_a_flange_far_from_the_groove():
    part = part_of([(-10, -13, 34)], steps=[(0, 40), (-45, 70)])
    moves = Moves().plunge(-13, 34)
    assert codes(part, moves, tool(overhang=17.9)) == {("turret", 2)}
    assert not codes(part, moves, tool(overhang=18.0))
    assert not codes(part, moves)


def test_the_reach_is_measured_from_a_shoulder_beside_the_groove():
    moves = Moves().plunge(-30, 34)
    assert codes(SHOULDER, moves, tool(max_depth=12.9)) == {("beyond-reach", 2)}
    assert not codes(SHOULDER, moves, tool(max_depth=13.0))


def test_a_shoulder_near_by_is_a_caution_until_the_holder_is_known():
    part = part_of([(-25, -28, 34)], steps=[(0, 40), (-29, 70)])
    moves = Moves().plunge(-28, 34)
    assert codes(part, moves, level="caution") == {("holder-near-shoulder", 2)}
    assert not everything(part, moves, tool(holder_near=0.5, holder_far=0.5))
    assert codes(part, moves, tool(holder_near=0.5, holder_far=1.5)) == {("beyond-reach", 2)}


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        # An unknown holder is taken to stand out 2 on either side, and an insert for 12 at 34 reaches up to 58.
        ([(0, 40), (-30, 70)], True),
        ([(0, 40), (-30.01, 70)], False),
        ([(0, 70), (-23, 40)], True),
        ([(0, 70), (-22.99, 40)], False),
        ([(0, 40), (-30, 58.1)], True),
        ([(0, 40), (-30, 58)], False),
    ],
)
def test_how_near_and_how_high_a_shoulder_must_stand(steps, told):
    part = part_of([(-25, -28, 34)], steps=steps)
    moves = Moves().rapid(80).plunge(-28, 34, start=72.0).rapid(80)
    assert bool(codes(part, moves, level="caution")) is told
    assert not codes(part, moves)


def test_in_the_middle_of_a_wide_groove_nothing_stands_beside_the_insert():
    part = part_of([(-10, -26, 20)])
    moves = Moves()
    for x in (36.0, 32.0, 28.0, 24.0, 20.0):
        for z in (-26, -24, -22, -20, -18, -16, -14, -13):
            moves.plunge(z, x)
    assert ("beyond-reach", None) not in {(c, None) for c, _ in codes(part, moves, tool(max_depth=10.0))}


def test_sideways_in_solid():
    moves = Moves().rapid(42, -13).feed(34).feed(None, -18).rapid(42)
    assert ("sideways-in-solid", 3) in codes(part_of([(-10, -18, 34)]), moves)


def test_a_shallow_pass_over_the_floor_is_borne():
    part = part_of([(-10, -18, 34)])
    moves = Moves().plunge(-13, 34.4).plunge(-15, 34.4).plunge(-17, 34.4).plunge(-18, 34.4)
    assert everything(part, moves.rapid(42, -13).feed(34).feed(None, -18).rapid(42)) == set()


@pytest.mark.parametrize(("left", "level"), [(0.1, "caution"), (0.3, "caution"), (0.5, "stop")])
def test_the_last_of_a_wall_may_be_taken_from_the_side(left, level):
    """Common practice, no source: 0.1 to 0.2 a side is left for finishing; a tenth of the width is borne."""
    part = part_of([(-10, -18, 34)])
    moves = Moves().plunge(-18, 34).plunge(-16, 34).plunge(-14, 34).plunge(-13 - left, 34)
    moves.rapid(42, -18).rapid(35).feed(34).feed(None, -13).rapid(42)
    assert {(c, level) for c, _ in codes(part, moves, level=level)} == {("sideways-in-solid", level)}


@pytest.mark.parametrize(("side_depth", "stops"), [(0.0, True), (3.0, False), (1.0, True)])
def test_the_shop_says_how_deep_the_insert_bears_sideways(side_depth, stops):
    moves = Moves().rapid(42, -13).feed(35).feed(None, -18).rapid(42)
    found = codes(part_of([(-10, -18, 35)]), moves, tool(side_depth=side_depth))
    assert (("sideways-in-solid", 3) in found) is stops


def test_a_slope_down_a_chamfer_is_borne():
    part = part_of([(-10, -13, 34, {"edge_chamfer": 0.5})])
    moves = Moves().plunge(-13, 34).rapid(42, -14.5).feed(41, -14.0).feed(39, -13.0).rapid(42)
    moves.rapid(None, -11.5).feed(41, -12.0).feed(39, -13.0).rapid(42)
    assert everything(part, moves) == set()
    assert codes(part, Moves().plunge(-13, 34), level="caution") == {("edge-chamfer", None)}


def test_a_deep_plunge_in_one_go_is_a_caution():
    part = part_of([(-10, -13, 26), (-20, -23, 26)])
    straight = Moves().plunge(-13, 26).plunge(-23, 26)
    assert everything(part, straight) == {("no-pecks", 2)}
    assert not judge(part, straight.run(), shop(tool(peck=0.0))).findings, "the shop wants no pecks"
    pecked = Moves().rapid(42, -13).feed(33).rapid(42).feed(26).rapid(42)
    pecked.rapid(None, -23).feed(33).rapid(35).feed(26).rapid(42)
    assert everything(part, pecked) == set()
    assert everything(PART, Moves().plunge(-13, 34)) == set()


def test_into_the_jaws():
    part = part_of([(-10, -13, 34), (-70, -73, 34)], length=90)
    moves = Moves().plunge(-13, 34).plunge(-73, 34)
    assert codes(part, moves) == {("into-jaws", 4)}
    assert not codes(part, moves, stick_out=76.0)
    assert not codes(part, moves, stick_out=None)
    assert codes(part, moves, tool(holder_far=2.0), stick_out=76.0) == {("into-jaws", 4)}


@pytest.mark.parametrize(("across", "told"), [(27.9, False), (28.1, True)])
def test_a_bar_on_its_way_into_the_bore_meets_the_tailstock(across, told):
    """The centre stands in the front face; the bar passes it at 28 across, on its way in and out.

    The way up from where it came out is no fault of its own.
    """
    inner = {"where": "inside", "mouth_diameter": 30.0}
    part = part_of([(-15, -18, 36, inner)], diameter=60, bore=30.0)
    moves = Moves(28, 100).rapid(None, -18).feed(36).rapid(28).rapid(None, 100).rapid(100)
    found = judge(part, moves.run(), shop(tool(where="inside"), tailstock=across)).findings
    ways = {1: "moves to X28. Z-18., past where", 4: "comes to X28. Z100., where"} if told else {}
    assert {f.line: ways[f.line] in f.message for f in found if f.stops} == dict.fromkeys(ways, True)


def test_a_tool_that_goes_on_into_the_tailstock_is_told_again():
    moves = Moves().rapid(42, -13).feed(34).rapid(42).rapid(None, 5).rapid(10).rapid(8).rapid(42)
    assert codes(PART, moves, tailstock=20.0) == {("into-tailstock", 5), ("into-tailstock", 6)}


def test_into_the_tailstock():
    moves = Moves().rapid(42, -13).feed(34).rapid(42).rapid(None, 5).rapid(10)
    assert not codes(PART, moves)
    assert codes(PART, moves, tailstock=20.0) == {("into-tailstock", 5)}


def test_a_station_without_a_tool_is_named_once():
    moves = Moves(station=7).plunge(-13, 34).plunge(-13, 34)
    found = judge(PART, moves.run(), shop())
    assert [(f.code, f.line) for f in found.findings] == [("tool-unknown", 2)]
    assert "station 7" in found.findings[0].message
    assert found.matches[0].state.value == "missing"


def test_cutting_before_a_tool_is_called():
    assert codes(PART, Moves(station=0, offset=0).plunge(-13, 34)) == {("no-tool", 2)}


@pytest.mark.parametrize("offset", [0, 4])
def test_an_offset_that_is_not_the_tools(offset):
    assert codes(PART, Moves(offset=offset).plunge(-13, 34)) == {("offset", 2)}


def test_two_offsets_of_one_insert_are_its_two_edges():
    near = tool(offset=13, reference="near")
    moves = Moves(offset=13).plunge(-10, 34)
    assert judge(PART, moves.run(), shop(tool(), near)).agree


def test_the_turret_is_indexed_clear_of_the_part():
    two = (tool(), tool(station=5, offset=5))
    part = part_of(row(2, -10, 5, 3, 34))
    near = Moves().plunge(-13, 34).rapid(42, -18, station=5, offset=5).feed(34, station=5, offset=5)
    assert codes(part, near, *two) == {("index-near-part", 4)}
    # 5 mm above the part of 40 across is the least that may be looked at; nearer, no neighbour swings past.
    for across, level in ((50.0, "stop"), (50.002, "caution"), (60.0, "caution"), (60.002, "")):
        spot = Moves().plunge(-13, 34).rapid(across).rapid(across, -18, station=5, offset=5)
        assert {one for one in ("stop", "caution") if codes(part, spot, *two, level=one)} == {level} - {""}
    low = Moves().plunge(-13, 34).rapid(55).rapid(55, -18, station=5, offset=5)
    assert codes(part, low, *two, level="caution") == {("index-near-part", 5)}
    clear = Moves().plunge(-13, 34).rapid(200).rapid(200, 100)
    clear.rapid(42, -18, station=5, offset=5).feed(34, station=5, offset=5).rapid(42, station=5, offset=5)
    assert not codes(part, clear, *two)


def test_every_unsafe_move_is_one_that_nobody_can_answer_for():
    found = judge(PART, Moves().rapid(42, -13).rapid(34).run(), shop())
    assert not any(f.code.acceptable for f in found.findings if f.stops)
    assert all(f.message.endswith(".") and f.line for f in found.findings)


def test_inside_tools_must_stay_off_the_bore():
    part = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0})], bore=20.0)
    good = Moves(18, 5).rapid(18, -13).feed(26).rapid(18).rapid(None, 5)
    assert everything(part, good, tool(where="inside")) == set()
    bad = Moves(18, 5).rapid(18, -13).feed(26).rapid(22).rapid(None, 5)
    assert codes(part, bad, tool(where="inside")) == {("rapid-into-material", 4)}


def test_the_depth_of_a_rapid_through_the_wall_of_a_bore_is_told_where_its_start_is_known():
    part = part_of([(-10, -13, 26, {"where": "inside", "mouth_diameter": 20.0})], bore=20.0)
    known = Moves(18, 5).rapid(24, -13)
    unknown = Moves(200, 5).rapid(None, -13, x0_known=False).rapid(18)
    told = [judge(part, moves.run(), shop(tool(where="inside"))).findings[0].message for moves in (known, unknown)]
    assert told[0].startswith("The rapid from X18. Z5. to X24. Z-13. runs 2 deep into metal; go round it")
    assert told[1].startswith("The rapid to Z-13. runs into metal; go round it")


@pytest.mark.parametrize("seed", range(30))
def test_random_rapids_are_told_exactly_if_they_go_through_metal(seed):
    """Outside check: a rapid is told if the polygon it sweeps has metal in it thicker than the tolerance."""
    rng = random.Random(seed)
    part = part_of(row(3, -5, 6, 3, 34), steps=[(0, 40), (-35, 56)], length=60)
    here, moves, metal, expected = (60.0, 0.0), Moves(60.0, 0.0), metal_of(part), set()
    for _ in range(14):
        kind = rng.choice(["rapid", "rapid", "feed"])
        x = rng.choice([here[0], rng.randrange(300, 620) / 10])
        z = rng.choice([here[1], rng.randrange(-580, 60) / 10])
        (moves.rapid if kind == "rapid" else moves.feed)(x, z)
        here, motion = (x, z), moves.motions[-1]
        sweep = swept_by(motion, tool(), 1000.0)
        if kind == "rapid" and not metal.intersection(sweep).buffer(-0.0101).is_empty:
            expected.add(motion.line)
        elif kind == "rapid" and hits(motion, metal, tool(), 1000.0) > 1e-9:
            return
        metal = metal.difference(sweep)
    told = {line for code, line in codes(part, moves, stick_out=None) if code == "rapid-into-material"}
    assert told == expected
    assert metal.intersection(box(-60, 0, 0, AIR)).area > 0


def test_a_program_that_says_that_the_tool_stands_beside_the_part():
    """G50 X42. Z-13. in place of a rapid there: nobody knows where the tool is."""
    head = "G21 G99\nT0303\nG50 S3000\nG96 S120 M03\n"
    tail = "G01 X34. F0.08\nG00 X42.\nG00 X200. Z100.\nM30\n"
    run = run_of(f"{head}G50 X42. Z-13.\n{tail}")
    assert ("zero-beside-part", 6) in {(f.code, f.line) for f in judge(PART, run, shop()).findings}
    usual = run_of(f"{head}G50 X200. Z100.\nG00 X42. Z-13.\n{tail}")
    assert not judge(PART, usual, shop(coolant=False)).findings


NUMBERS = ["99999999999999999.", "-99999999999999999.", "-1073741.824", "0.", "-0.001"]


@pytest.mark.parametrize(
    ("z", "x"), [*zip(NUMBERS, NUMBERS, strict=True), ("0.", "-0.001"), (NUMBERS[0], "0."), ("-0.001", NUMBERS[1])]
)
@pytest.mark.parametrize("word", ["G00", "G01 F.1", "G75 P1000 Q1000 F.1", "G75 P5000 Q500 F.1"])
def test_absurd_numbers_are_told_and_not_followed(x, z, word, monkeypatch):
    monkeypatch.setattr("postproc.reading.log.MOST_MOTIONS", 2_000)
    text = f"G21 G99\nT0303\nG50 S3000\nG96 S120 M03\nG0 X42. Z-13.\n{word} X{x} Z{z}\nM30\n"
    run = run_of(text)
    assert not judge(PART, run, shop()).agree


def test_creeping_away_beyond_every_lathe_is_told_once_a_line():
    moves = Moves(2_000_000, 0).rapid(2_000_000_000, 1).feed(42).rapid(42, -13).feed(34).rapid(42)
    found = judge(PART, moves.run(), shop())
    assert {f.code for f in found.findings if f.stops} >= {"too-far"}
    assert found.matches[0].state.value == "matches"


def test_a_reach_that_no_shop_file_gives_is_only_a_caution():
    text = 'units = "mm"\n[machine]\nstick_out = 75\n[[tools]]\nstation = 3\nwidth = 3\npeck = 0\n'
    part = part_of([(-10, -13, 26)])
    run = Moves().plunge(-13, 26).run()
    found = {f.code: f for f in judge(part, run, parse_shop(text, "s", "mm")).findings}
    assert found["reach-unknown"].level.value == "caution"
    assert "goes 7 deep beside standing metal and no shop file gives its reach" in found["reach-unknown"].message
    assert judge(part, run, parse_shop(text, "s", "mm")).agree
    given = judge(part, run, parse_shop(text + "max_depth = 6\n", "s", "mm"))
    assert "beyond-reach" in {f.code for f in given.findings if f.stops}


def test_half_of_an_odd_diameter_is_told_with_no_digit_more_than_a_program_has():
    found = judge(PART, Moves().rapid(42, -13).rapid(33.333).rapid(42).run(), shop())
    assert any("runs 3.334 deep" in f.message for f in found.findings)


@pytest.mark.parametrize(
    ("down", "then", "told"),
    [
        (34, None, True),
        (34.02, None, True),
        (34.022, None, False),
        (33.98, None, True),
        (34.5, None, False),
        (34, 33.9, False),
        (34, 34, True),
        (34.5, 34, False),
    ],
)
def test_a_rapid_onto_a_floor_from_which_no_cut_goes_on(down, then, told):
    """Back onto the last peck and on at feed is what many do; the shop's tolerance of 0.02 counts as touched."""
    moves = Moves().rapid(42, -13).feed(34).rapid(42).rapid(down)
    moves = (moves if then is None else moves.feed(then)).rapid(42)
    assert codes(PART, moves, level="caution") == ({("no-clearance", 4)} if told else set())


def test_a_rapid_back_onto_the_last_peck_is_no_caution():
    moves = Moves().rapid(42, -13).feed(38).rapid(42).rapid(38).feed(34).rapid(42)
    assert codes(PART, moves, level="caution") == set()


@pytest.mark.parametrize(("down", "told"), [(34, True), (34.02, True), (34.022, False), (35, False)])
def test_a_round_insert_that_comes_down_at_rapid_onto_a_wider_floor(down, told):
    """Only its lowest point touches; its flanks are clear of all metal."""
    moves = Moves()
    for z in (-13, -15, -17, -18):
        moves.rapid(42, z).feed(34).rapid(42)
    moves.rapid(200, 100)
    moves.fields |= {"station": 5, "offset": 5}
    moves.rapid(42, -15.5).rapid(down).rapid(42)
    tools = tool(), tool(station=5, offset=5, edge="round", width=2.0, corner_radius=1.0)
    found = codes(part_of([(-10, -18, 34)]), moves, *tools, level="caution")
    assert (("no-clearance", len(moves.motions) - 1) in found) is told


def test_a_rapid_onto_the_land_and_off_again_is_told_as_one_onto_the_land():
    for x, words in ((40, "ends on the metal with no clearance"), (39.99, "ends on the metal with no clearance")):
        found = judge(PART, Moves().rapid(42, -13).feed(34).rapid(42, -30).rapid(x).rapid(42).run(), shop(tool()))
        (message,) = [f.message for f in found.findings if f.code == "no-clearance"]
        assert words in message
