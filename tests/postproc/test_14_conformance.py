"""Every kind of step in eight dialects, both ways and in both units; five of them are TOML of the tests alone."""

from dataclasses import fields, replace

import pytest
from support.tongues import FIVE

from planner.steps import Cut, GrooveCycle, Rapid
from postproc import find_dialect
from postproc.conformance import ROWS, conformance, row, rows
from postproc.dialects import OURS

EIGHT = {**{name: find_dialect(name) for name in ("two-block", "one-block", "plunge")}, **FIVE}
CANNOT = {
    # dialect: the rows that it refuses, which are all that it may refuse
    "plunge": {"reference point along both axes", "reference point along X"},
    "stored-groove": {"where the tool stands"},
    "two-points": {"reference point along both axes", "reference point along X"},
}


@pytest.mark.parametrize("name", [*EIGHT, *(name for name in OURS if name not in EIGHT)])
def test_every_row_is_read_back_as_it_was_written(name):
    dialect = EIGHT.get(name) or find_dialect(name)
    told = conformance(dialect)
    assert len(told) == 2 * len(rows(dialect)) >= 2 * len(ROWS)
    assert {(one.what, one.units): one.fault for one in told if one.fault} == {}
    assert {one.what for one in told if one.cannot} == CANNOT.get(name, set())


SPELLED = [
    # dialect, row, blocks (worked out by hand from the table of the dialect; 40 to 34 is 3 deep on the radius)
    ("turned-tools", "tool with its offset", ["T12 D7"]),
    ("turned-tools", "offset cancelled", ["D0"]),
    ("turned-tools", "own switch: chuck clamps", ["M68"]),
    ("half-widths", "rapid along X", ["G00 X22.2500"]),
    ("half-widths", "X of an odd count", ["G00 X20.9995"]),
    ("half-widths", "clockwise arc", ["G02 X19.0000 Z-15.0000 I0.0000 K-2.0000 F0.0500"]),
    ("half-widths", "dwell", ["G04 X0.2500"]),
    ("half-widths", "row of grooves toward the chuck", ["G75 X17.0000 Z-28.0000 I1.0000 K5.0000 F0.0800"]),
    ("stored-groove", "spindle clamp", ["VMAX=2500"]),
    ("stored-groove", "constant surface speed", ["G96 VCUT=120 M03"]),
    ("stored-groove", "clockwise arc", ["G02 X38. Z-15. CENX=42. CENZ=-15. FEED=0.05"]),
    (
        "stored-groove",
        "row of grooves toward the chuck",
        ["M98 P9075 FLOOR=34. LAST=-28. DEEP=2. STEP=5. BACK=1. FEED=0.08"],
    ),
    ("stored-groove", "single groove", ["M98 P9075 FLOOR=34. DEEP=3. BACK=1. FEED=0.08"]),
    (
        "numbered-values",
        "row of grooves toward the chuck",
        ["#101=-4 #102=1", "#103=-5 #104=3", "#105=0.5", "G87 F0.08", "G00 Z-13"],
    ),
    ("numbered-values", "groove in a bore", ["#101=4 #102=1", "#103=0 #104=0", "#105=0.5", "G87 F0.08"]),
    (
        "two-points",
        "row of grooves toward the chuck",
        ["G86 A42000 B-13000 X34000 L15000 D1000 E-5000 R500 F0.08"],
    ),
]


@pytest.mark.parametrize(("name", "what", "blocks"), SPELLED, ids=lambda value: value if isinstance(value, str) else "")
def test_the_words_are_those_that_the_table_says(name, what, blocks):
    step = dict(rows(EIGHT[name]))[what]
    assert list(row(EIGHT[name], what, step, "mm").blocks) == blocks


def as_a(kind, dialect):
    """A dialect as one of a class of its own."""
    return kind(**{field.name: getattr(dialect, field.name) for field in fields(dialect)})


def test_a_dialect_that_reads_other_than_it_writes_is_found():
    class Wrong(type(EIGHT["two-block"])):
        def spell(self, step, increments):
            here = step == Cut(800, x=34_000) and increments.units == "mm"
            return ("G01 X33. F0.08",) if here else None

    wrong = Wrong(
        **{key: value for key, value in vars(EIGHT["two-block"]).items() if key in Wrong.__dataclass_fields__}
    )
    faults = {one.what: one.fault for one in conformance(wrong) if one.fault}
    assert list(faults) == ["cut along X"]
    assert "read back as Cut(feed=800, x=33000" in faults["cut along X"]


def test_what_a_plug_in_spells_it_may_read_as_well():
    class Own(type(EIGHT["two-block"])):
        def spell(self, step, increments):
            here = step == Cut(800, x=34_000) and increments.units == "mm"
            return ("G01 X#A F0.08",) if here else None

        def respell(self, line):
            return line.replace("#A", "34.")

    own = as_a(Own, EIGHT["two-block"])
    assert [one for one in conformance(own) if one.fault] == []


@pytest.mark.parametrize(
    ("name", "step", "reason"),
    [
        (
            "turned-tools",
            GrooveCycle(floor_x=34_000, end_z=-13_000, peck=100_000, shift=0, retract=500, feed=800),
            "P can't hold",
        ),
        ("two-block", Cut(800, x=34_000, z=None), ""),
        ("plunge", GrooveCycle(floor_x=34_000, end_z=-13_000, peck=1_000, shift=0, retract=500, feed=800), ""),
        ("stored-groove", Rapid(1_234_567_890), "X can't hold|longer than"),
    ],
)
def test_what_a_number_has_no_digits_for_is_refused(name, step, reason):
    import re

    told = row(EIGHT[name], "", step, "mm")
    assert re.search(reason, told.cannot or told.fault)
    assert bool(told.cannot or told.fault) == bool(reason)


def test_five_digits_are_just_enough_or_one_too_few():
    most = GrooveCycle(floor_x=34_000, end_z=-13_000, peck=99_999, shift=0, retract=500, feed=800)
    assert not row(EIGHT["turned-tools"], "", most, "mm").cannot
    assert "P can't hold" in row(EIGHT["turned-tools"], "", replace(most, peck=100_000), "mm").cannot
