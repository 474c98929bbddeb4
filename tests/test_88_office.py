"""Whole sheets of drawing offices are read as drawn, or stop with the fact that is wrong on them.

tests/bench/office_rates.py prints the rates of all families, over any seeds; `--passing` prints the table below.
"""

import io
from dataclasses import replace

import ezdxf
import pytest
from support.ink import Line
from support.office.desk import desk
from support.office.families import FAMILIES
from support.office.grading import GOOD, grade, judged
from support.office.library import LibraryWriter
from support.office.model import Groove, Part, outer_half
from support.office.reading import Said
from support.office.style import FileKind, plain_writer
from support.office.truth import Truth, answer

SHEETS = {
    "a": (0, 2, 5, 8, 10),
    "b": (2,),
    "c": (5, 9, 301),
    "d": (1, 2, 8, 12, 13, 14),
    "e": (1, 6, 301, 302, 303),
    "f": (3, 5, 6, 7, 300, 302, 304),
    "g": (1, 2, 3, 300),
    "h": (0, 2, 3, 5, 8),
    "i": (0, 10),
    "j": (7, 11, 300, 301, 302),
    "k": (0, 3),
    "l": (1, 3, 4, 8),
    "m": (1, 3, 5, 8, 79, 116),
    "n": (0, 1, 2, 3, 6, 7, 31),
}


@pytest.mark.parametrize("family", SHEETS)
def test_sheets_of_an_office_are_read_or_stopped_as_they_should_be(family: str) -> None:
    found = {seed: grade(FAMILIES[family](seed), follow=False) for seed in SHEETS[family]}
    assert not {s: (g.word, g.why) for s, g in found.items() if g.word not in GOOD}


@pytest.mark.parametrize("family", FAMILIES)
def test_a_seed_makes_the_same_sheet_each_time(family: str) -> None:
    one, other = FAMILIES[family](4), FAMILIES[family](4)
    assert (one.kind, one.truth) == (other.kind, other.truth)


def test_both_writers_draw_the_same_outline() -> None:
    for seed in range(3):
        d = desk("both", seed)
        d.look = replace(d.look, lines="split")
        d.main_view()
        drawn = {_ends(i.a, i.b) for i in d.paper.ink if isinstance(i, Line) and i.role == "outline"}
        for kind in (FileKind("plain", "R12", 4), FileKind("plain", "R2000", 4), FileKind("library", "R2010", 4)):
            writer = plain_writer(d.office, kind) if kind.writer == "plain" else LibraryWriter(d.office, kind)
            doc = ezdxf.read(io.StringIO(writer.text(d.paper.ink)))
            lines = {_ends(e.dxf.start, e.dxf.end) for e in doc.modelspace().query("LINE")}
            assert drawn <= lines


def _ends(a: tuple[float, ...], b: tuple[float, ...]) -> frozenset[tuple[float, float]]:
    return frozenset((round(p[0], 6), round(p[1], 6)) for p in (a, b))


def test_the_truth_is_the_drawn_profile() -> None:
    """A part worked out by hand: what is drawn and what is held true are the same numbers."""
    part = Part(((20.0, 30.0), (50.0, 40.0)), (Groove(5.0, 2.0, 26.0), Groove(30.0, 4.0, 35.0)), chamfers=(1.0, 0.0))
    points = [(0, 14), (1, 15), (5, 15), (5, 13), (7, 13), (7, 15), (20, 15), (20, 20)]
    points += [(30, 20), (30, 17.5), (34, 17.5), (34, 20), (50, 20)]
    pieces = outer_half(part)
    assert [pieces[0][0], *(q for _, q, _ in pieces)] == points
    held = answer(part, "right")
    assert [(g.near, g.far, g.floor) for g in held.grooves] == [(-5, -7, 26), (-30, -34, 35)]
    assert [(g.near, g.far) for g in held.turned().grooves] == [(-16, -20), (-43, -45)]


READ = {
    "units": "mm",
    "length": 50.0,
    "outer_diameter": 40.0,
    "front": {"end": "right", "by": "assumed"},
    "grooves": [{"where": "outside", "z_near": -5.0, "z_far": -7.0, "floor_diameter": 26.0, "shape": "rectangular"}],
    "findings": [],
}
PLAIN = Part(((20.0, 30.0), (50.0, 40.0)), (Groove(5.0, 2.0, 26.0),))


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({}, "right"),
        ({"length": 50.1}, "WRONG"),
        ({"units": "in"}, "WRONG"),
        ({"grooves": []}, "WRONG"),
        ({"grooves": [{**READ["grooves"][0], "z_far": -7.01}]}, "WRONG"),
        ({"grooves": [*READ["grooves"], {**READ["grooves"][0], "z_near": -9.0, "z_far": -10.0}]}, "WRONG"),
        ({"front": {"end": "left", "by": "words"}}, "WRONG"),
        ({"length": 50.1, "findings": [{"level": "caution", "code": "drawn-again", "message": ""}]}, "wrong+"),
    ],
)
def test_the_grade_of_an_answer_can_fail(change: dict[str, object], word: str) -> None:
    said = Said(0, {**READ, **change}, "")
    assert judged(said, Truth("read", answer(PLAIN, "right")))[0] == word


def test_the_grade_of_a_stop_wants_the_fact() -> None:
    said = Said(1, {**READ, "findings": [{"level": "stop", "code": "x", "message": "34 for 35"}]}, "34 for 35")
    assert judged(said, Truth("stop", facts=((34.0, 35.0),)))[0] == "stopped"
    assert judged(said, Truth("stop", facts=((34.0, 36.0),)))[0] == "stopped-"
    assert judged(said, Truth("stop", facts=((34.0, 35.0),), code="variants"))[0] == "stopped-"
    assert judged(said, Truth("read", answer(PLAIN, "right")))[0] == "refused"
    assert judged(Said(0, READ, ""), Truth("stop"))[0] == "WRONG"
