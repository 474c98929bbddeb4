"""Right programs of whole parts, at random, with the habits of practised hands: no alarm, and each habit is named."""

import re
from dataclasses import replace

from support.hands.practised import HABITS, practised_programs
from support.parts import part_of
from support.programs import run_of

from extractor.finding import Level, stopped
from postproc import compare_program, explain

PROGRAMS = tuple(practised_programs(70, seed=31))
NAMED = {"broken-edges": "edge-broken", "parting-off": "parts-off", "other-tool": "tool-not-followed"}
# What some of these hands do on purpose, as in the plain ones: deep plunges in one go, blocks in a remark, M04.
REMARKS = {"stopped-in-groove", "no-pecks", "words-in-remark", "spindle-reverse", "coolant-off", "block-skip"}


def test_no_false_alarm_and_each_habit_is_named():
    for program in PROGRAMS[:40]:
        found = compare_program(program.part, program.text, program.shop)
        assert found.agree, (program.name, program.text, found)
        assert not stopped(found.findings)
        wanted = {NAMED[habit] for habit in program.habits & NAMED.keys()}
        assert {f.code for f in found.findings} - REMARKS == wanted, (program.name, program.text, found.findings)


def test_every_habit_is_met_often_and_not_always():
    for habit in HABITS:
        assert 12 < sum(habit in program.habits for program in PROGRAMS) < 58


def test_they_plunge_where_they_mean_to():
    for program in PROGRAMS:
        run = run_of(program.text, program.dialect, program.units)
        feeds = [(m.x1, m.z1) for m in run.motions if m.kind == "feed" and m.x1 != m.x0 and m.station != 0]
        places = iter(feeds)
        assert all(cut in places for cut in program.cuts), (program.name, program.text)


def test_every_line_of_theirs_is_explained():
    for program in PROGRAMS[:20]:
        told = explain(program.text)
        for block in told.blocks:
            assert block.sentence.endswith("."), (block, program.text)
            assert "not known" not in {word.meaning for word in block.words}, (block, program.text)
        assert {block.line for block in told.blocks} >= {motion.line for motion in told.run.motions}


def test_parting_off_inside_a_longer_part_is_told():
    """The alarm can ring: the same cut through a part that goes on behind it."""
    parting = [p for p in PROGRAMS if "parting-off" in p.habits]
    for program in parting[:15]:
        spots = [(g.z_near, g.z_far, g.floor_diameter) for g in program.part.grooves]
        unit = 1.0 if program.units == "mm" else 1 / 25.4
        longer = part_of(spots, program.part.outer_diameter, program.part.length + 20 * unit, program.units)
        found = compare_program(longer, program.text, _roomy(program.shop, 30 * unit))
        assert not found.agree, (program.name, program.text)
        assert "extra" in {m.state.value for m in found.matches} or stopped(found.findings)


def test_an_unknown_tool_that_plunges_into_the_part_is_told():
    """The alarm can ring: the first tool's straight cut goes on into the metal."""
    tried = 0
    for program in PROGRAMS:
        if "other-tool" not in program.habits or program.units != "mm":
            continue
        lines = program.text.split("\n")
        at = next(n for n, line in enumerate(lines) if re.search(r"(?i)t\s*\d{4}", line))
        where = at + 1
        radius = program.part.outer_diameter / 2
        z = program.part.grooves[0].z_near + 1.0
        into = f"G0 X{2 * radius + 4:.3f} Z{z:.3f}\nG1 X{1.8 * radius:.3f} F0.05\nG0 X{2 * radius + 4:.3f}\n"
        unspun = "G97 S800 M3\n" + into
        text = "\n".join([*lines[:where], *unspun.rstrip("\n").split("\n"), *lines[where:]])
        found = compare_program(program.part, text, program.shop)
        assert not found.agree, (program.name, text)
        assert "tool-unknown" in {f.code for f in found.findings if f.level is Level.STOP}, (text, found.findings)
        tried += 1
    assert tried > 12


def test_one_groove_drawn_otherwise_is_told_through_all_habits():
    """The alarm can ring: broken edges, other tools and parting hide no wrong floor and no wrong wall."""
    for n, program in enumerate(PROGRAMS[:15]):
        grooves = program.part.grooves
        which = n % len(grooves)
        off = 4 * program.shop.machine.tolerance
        spots = [(g.z_near, g.z_far, g.floor_diameter) for g in grooves]
        near, far, floor = spots[which]
        for spot in ((near, far, floor + 2 * off), (near, far - off, floor), (near + off, far + off, floor)):
            changed = [*spots[:which], spot, *spots[which + 1 :]]
            part = part_of(changed, program.part.outer_diameter, program.part.length, program.units)
            found = compare_program(part, program.text, program.shop)
            wrong = [m.drawing for m in found.matches if m.state.value != "matches"]
            assert not found.agree
            assert wrong == [which + 1], (program.name, spot, program.text, found)


def _roomy(shop, more):
    """A shop with so much more bar out of the jaws."""
    return replace(shop, machine=replace(shop.machine, stick_out=shop.machine.stick_out + more))
