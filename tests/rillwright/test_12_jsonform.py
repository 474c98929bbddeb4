"""The JSON forms that scripts rely on: the keys of the contract, all of them, and nulls where there is no part."""

import json
from dataclasses import field, replace
from enum import StrEnum

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.forms import form as form_of
from support.parts import part_of, row

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from extractor.part import Reading
from extractor.values import SPARE, dataclass
from planner.plan import GrooveSet
from postproc.codes import ProgramCode
from postproc.verdict import CutGroove, Match, State, Verdict
from rillwright.records.jsonform import LAID_OPEN, OneByOne, dump, dumped
from rillwright.records.recording import number, recorded_findings, recorded_part, rounded, verification

# The keys promised in the public contract, `read --json`.
PART_KEYS = {"schema", "drawing", "units", "front", "outer_diameter", "length", "grooves", "sets", "findings",
             "ink", "weighed"}  # fmt: skip
GROOVE_KEYS = {
    "id", "where", "shape", "z_near", "z_far", "width", "mouth_diameter", "floor_diameter", "depth",
    "corner_radius", "edge_chamfer", "tolerances",
}  # fmt: skip


def reading(findings=()):
    part = part_of(row(2, -10, 5, 3, 34, tolerances={"width": (-0.0, 0.1)}))
    return Reading("ring.dxf", "ab" * 32, "mm", part, findings)


def test_a_part_has_every_key_of_the_contract():
    form = form_of(recorded_part(reading(), (GrooveSet((1, 2), 5.0),)))
    assert set(form) == PART_KEYS
    assert set(form["grooves"][0]) == GROOVE_KEYS
    assert form["grooves"][1] | {"tolerances": {}} == {
        "id": 2, "where": "outside", "shape": "rectangular", "z_near": -15.0, "z_far": -18.0, "width": 3.0,
        "mouth_diameter": 40.0, "floor_diameter": 34.0, "depth": 3.0, "corner_radius": 0.0, "edge_chamfer": 0.0,
        "tolerances": {},
    }  # fmt: skip
    assert form["grooves"][0]["tolerances"] == {"width": [0.0, 0.1]}
    assert form["sets"] == [{"grooves": [1, 2], "count": 2, "pitch": 5.0}]
    assert form["drawing"] == {"file": "ring.dxf", "sha256": "ab" * 32}


def test_no_part_is_nulls_and_empty_lists():
    stop = Finding(Level.STOP, DrawingCode.NO_TURNED_PART, "There is no turned part.", at=(1.0, 2.0))
    form = form_of(recorded_part(Reading("x.dxf", "00", None, None, (stop,)), ()))
    assert (form["units"], form["outer_diameter"], form["length"]) == (None, None, None)
    assert (form["grooves"], form["sets"]) == ([], [])
    assert form["findings"] == [
        {"level": "stop", "code": "no-turned-part", "message": "There is no turned part.", "at": [1.0, 2.0]}
    ]


def test_a_finding_tells_line_and_groove_only_where_it_has_them():
    first = Finding(Level.NOTE, DrawingCode.GAPS_CLOSED, "b")
    bare, placed = form_of(recorded_findings([first, replace(first, line=7, groove=2)]))
    assert bare == {"level": "note", "code": "gaps-closed", "message": "b", "at": None}
    assert placed == bare | {"line": 7, "groove": 2}


def test_a_verdict_has_every_key_of_the_contract():
    cut = CutGroove(z_near=-10.0, z_far=-13.0, floor_diameter=34.1, lines=(12, 13))
    verdict = Verdict(
        (
            Match(
                drawing=1,
                program=cut,
                state=State.DEPTH,
                difference={"z_near": 0.0, "z_far": 0.0, "floor_diameter": 0.1},
            ),
            Match(drawing=2, program=None, state=State.MISSING, difference={}),
            Match(drawing=None, program=cut, state=State.EXTRA, difference={}),
        ),
        (Finding(Level.STOP, ProgramCode.RAPID_INTO_MATERIAL, "Rapid into metal.", line=12),),
    )
    form = form_of(verification(verdict))
    assert (form["schema"], form["agree"]) == (1, False)
    assert form["grooves"][0] == {
        "drawing": 1,
        "program": {"z_near": -10.0, "z_far": -13.0, "floor_diameter": 34.1, "lines": [12, 13]},
        "state": "depth",
        "difference": {"z_near": 0.0, "z_far": 0.0, "floor_diameter": 0.1},
    }
    assert form["grooves"][1]["program"] is None
    assert form["grooves"][2]["drawing"] is None
    assert form["findings"][0]["line"] == 12


def test_face_grooves_tell_their_outer_wall():
    face = CutGroove(z_near=0.0, z_far=-3.0, floor_diameter=20.0, lines=(), mouth_diameter=26.0)
    assert form_of(rounded(face))["mouth_diameter"] == 26.0


def test_a_document_survives_any_name():
    text = dump({"file": "a\udcff\n\u00e9"})
    assert json.loads(text) == {"file": "a\udcff\n\u00e9"}
    assert text.isascii()


class Colour(StrEnum):
    RED = "red"


SCALARS = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text()
DOCUMENTS = st.recursive(
    SCALARS | st.just(Colour.RED),
    lambda inner: st.lists(inner) | st.lists(inner).map(tuple) | st.dictionaries(st.text(), inner),
)


def laid_out(document, feed="\n"):
    """The oracle: the layout by the words of the docstring, every value that stands in a line by Python's own json."""
    inner = feed + " "
    if isinstance(document, dict) and document:
        rows = [f"{json.dumps(name)}: {laid_out(one, inner)}" for name, one in document.items()]
        return f"{{{inner}{f',{inner}'.join(rows)}{feed}}}"
    if isinstance(document, list | tuple) and any(isinstance(one, list | tuple | dict) for one in document):
        return f"[{inner}{f',{inner}'.join(map(json.dumps, document))}{feed}]"
    return json.dumps(document)


@settings(deadline=None)
@given(DOCUMENTS)
def test_a_document_is_written_so_that_the_library_reads_the_same(document):
    text = dump(document)
    assert json.loads(text) == json.loads(json.dumps(document))
    assert text == laid_out(document) + "\n"


def test_rows_stand_on_lines_of_their_own():
    rows = [{"id": k, "at": [k, 0.5], "limits": {"width": [1, 2]}} for k in range(3)]
    lines = dump({"grooves": rows, "at": [1, 2]}).split("\n")
    assert [json.loads(line.rstrip(",")) for line in lines[2:5]] == rows
    assert lines[:2] == ["{", ' "grooves": [']
    assert lines[5:] == [" ],", ' "at": [1, 2]', "}", ""]


@dataclass(frozen=True)
class Spot:
    x: float
    y: int = 0


@dataclass(frozen=True)
class Held:
    spot: Spot = field(metadata=LAID_OPEN)
    y: str
    from_: tuple[Spot, ...] = ()
    note: str | None = field(default=None, metadata=SPARE)


def test_a_value_is_written_field_by_field():
    plain = {"x": 1.5, "y": "a", "from": [{"x": 0.5, "y": 3}]}
    held = Held(Spot(1.5, 2), "a", (Spot(0.5, 3),))
    for value, form in ((held, plain), (replace(held, note="b"), plain | {"note": "b"}), ([held], [plain])):
        assert dump(value) == laid_out(form) + "\n"
        assert form_of(value) == form


@pytest.mark.parametrize("count", [1, 2, 3])
def test_what_is_made_one_by_one_is_written_like_a_list(count):
    rows = [{"line": k, "words": ["x", 1.5], "none": {}} for k in range(count)]
    document = {"a": 1, "blocks": OneByOne(iter(rows)), "deep": {"rows": OneByOne(iter(rows))}, "z": []}
    plain = {"a": 1, "blocks": rows, "deep": {"rows": rows}, "z": []}
    assert "".join(dumped(document)) == laid_out(plain) + "\n"


@pytest.mark.parametrize("number", [float("nan"), float("inf"), -float("inf")])
def test_what_is_no_number_of_json_is_never_written(number):
    with pytest.raises(ValueError, match="is no number of JSON"):
        dump({"x": [number]})


def test_numbers_print_as_they_were_meant():
    assert number(-1e-12) == 0.0
    assert str(number(-1e-12)) == "0.0"
    assert number(34.000000000000004) == 34.0
