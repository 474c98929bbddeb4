"""The public contract's JSON, as a schema written down here by hand, held against what the commands print.

A form is: a type, a tuple of forms that it may be, a list with the form of its entries, a set of allowed values, or a
dict of keys and forms in which every key must be there. Further keys are allowed, as the contract says.
"""

import json

import ezdxf
import pytest
from support.door import run
from support.drawings import DIALECTS, SAMPLES, draw_ring

NUMBER = (int, float)
NONE = type(None)
LEVELS = {"stop", "caution", "note"}
PLACE = ([NUMBER], NONE)

FINDING = {"level": LEVELS, "code": str, "message": str, "at": PLACE}
GROOVE = {
    "id": int,
    "where": {"outside", "inside", "face"},
    "shape": {"rectangular", "vee", "round", "tapered", "relief", "other"},
    "z_near": NUMBER,
    "z_far": NUMBER,
    "width": NUMBER,
    "mouth_diameter": NUMBER,
    "floor_diameter": NUMBER,
    "depth": NUMBER,
    "corner_radius": NUMBER,
    "edge_chamfer": NUMBER,
    "tolerances": dict,
}
PART = {
    "schema": {1},
    "drawing": {"file": str, "sha256": str},
    "units": {"mm", "in", None},
    "outer_diameter": (*NUMBER, NONE),
    "length": (*NUMBER, NONE),
    "grooves": [GROOVE],
    "sets": [{"grooves": [int], "count": int, "pitch": NUMBER}],
    "findings": [FINDING],
}
CUT = {"z_near": NUMBER, "z_far": NUMBER, "floor_diameter": NUMBER}
VERDICT = {
    "schema": {1},
    "agree": bool,
    "grooves": [
        {
            "drawing": (int, NONE),
            "program": (CUT, NONE),
            "state": {"matches", "position", "width", "depth", "missing", "extra"},
            "difference": dict,
        }
    ],
    "findings": [{"level": LEVELS, "code": str, "line": (int, NONE), "message": str}],
}
PLAN = {
    "operations": [
        {
            "grooves": [int],
            "tool": str,
            "form": {"cycle", "plunges"},
            "start": {"x": NUMBER, "z": NUMBER},
            "seconds": NUMBER,
        }
    ],
    "seconds": NUMBER,
}
PROGRAM = {"file": str, "sha256": str, "dialect": set(DIALECTS)}
RECORD = {
    "schema": {1},
    "status": {"made", "refused"},
    "part": PART,
    "plan": (PLAN, NONE),
    "program": (PROGRAM, NONE),
    "verification": (VERDICT, NONE),
    "findings": [FINDING],
}


def faults(form, value, place="$"):
    """Where a value is not of its form."""
    if isinstance(form, tuple):
        return [] if any(not faults(one, value, place) for one in form) else [f"{place}: {value!r}"]
    if isinstance(form, set):
        return [] if value in form else [f"{place}: {value!r}"]
    if isinstance(form, list):
        if not isinstance(value, list):
            return [f"{place}: no list"]
        return [fault for n, one in enumerate(value) for fault in faults(form[0], one, f"{place}[{n}]")]
    if isinstance(form, dict):
        if not isinstance(value, dict):
            return [f"{place}: no object"]
        missing = [f"{place}: lacks {key}" for key in form.keys() - value.keys()]
        return missing + [
            fault for key in form.keys() & value.keys() for fault in faults(form[key], value[key], f"{place}.{key}")
        ]
    right = isinstance(value, form) and not (isinstance(value, bool) and form is not bool)
    return [] if right else [f"{place}: {value!r}"]


def printed(*call):
    """The one document on standard output."""
    result = run(*call)
    assert result.exit_code in (0, 1), result.stderr
    return json.loads(result.stdout)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_read_prints_the_contracts_form(path):
    part = printed("read", path, "--json")
    assert faults(PART, part) == []
    for groove in part["grooves"]:
        assert groove["width"] == pytest.approx(groove["z_near"] - groove["z_far"], abs=1e-6)
        depth = (groove["mouth_diameter"] - groove["floor_diameter"]) / 2
        assert groove["depth"] == pytest.approx(depth, abs=1e-6)
        assert all(low <= high for low, high in groove["tolerances"].values())
    assert [g["id"] for g in part["grooves"]] == list(range(1, len(part["grooves"]) + 1))
    members = sorted(n for one in part["sets"] for n in one["grooves"])
    assert members == [g["id"] for g in part["grooves"]]
    assert all(one["count"] == len(one["grooves"]) for one in part["sets"])


def test_read_of_what_is_no_part_prints_nulls(tmp_path):
    path = draw_ring(tmp_path / "bare.dxf", insunits=0)
    part = printed("read", path, "--json")
    assert faults(PART, part) == []
    assert part["units"] is None


def outlined(path, upper, bore):
    """A sheet with both halves of a section as closed polylines of (z, radius, bulge), and its centre line."""
    doc = ezdxf.new("R2010", units=4)
    space = doc.modelspace()
    for side in (1, -1):
        halves = [*upper, *((z, bore, 0.0) for z in (upper[-1][0], upper[0][0]))]
        space.add_lwpolyline([(z, side * r, side * b) for z, r, b in halves], format="xyb", close=True)
    doc.linetypes.add("CENTER", [2.0, 1.25, -0.25, 0.25, -0.25])
    space.add_line((-45, 0), (5, 0), dxfattribs={"linetype": "CENTER"})
    doc.saveas(path)
    return path


@pytest.mark.parametrize("behind", [False, True])
def test_a_face_groove_has_its_mouth_near_and_its_floor_far(behind, tmp_path):
    """In the back face too, where the floor lies nearer the front."""
    rim = [(0, 30), (0, 25), (-4, 25), (-4, 20), (0, 20), (0, 10)]
    half = [(z, r, 0.0) for z, r in [*rim, (-40, 10), (-40, 30)]]
    half = [*half[-1:], *half[:-2], (-40, 10, 0.0)]
    if behind:
        half = [(-40 - z, r, b) for z, r, b in half[::-1]]
    (groove,) = printed("read", outlined(tmp_path / "face.dxf", half, 10), "--json")["grooves"]
    assert (groove["z_near"], groove["z_far"], groove["depth"]) == ((-40, -36, 4) if behind else (0, -4, 4))
    assert (groove["outer_wall_diameter"], groove["inner_wall_diameter"]) == (50, 40)


@pytest.mark.parametrize(("bulge", "broken"), [(0.0, (0.5, 0.0)), (0.41421356, (0.0, 0.5))])
def test_a_rounded_mouth_is_no_chamfer(bulge, broken, tmp_path):
    """A quarter circle has the bulge tan(90 / 4 degrees)."""
    half = [(0, 20, 0), (-9.5, 20, bulge), (-10, 19.5, 0), (-10, 17, 0), (-13, 17, 0), (-13, 19.5, bulge)]
    half += [(-13.5, 20, 0), (-40, 20, 0)]
    (groove,) = printed("read", outlined(tmp_path / "rim.dxf", half, 5), "--json")["grooves"]
    assert (groove["edge_chamfer"], groove.get("edge_radius", 0.0)) == broken


def test_make_and_compare_print_the_contracts_forms(tmp_path):
    plain = draw_ring(tmp_path / "plain.dxf", ())
    for dialect in DIALECTS:
        records = printed("make", *SAMPLES[:3], plain, "--out", tmp_path / dialect, "--dialect", dialect, "--json")
        assert [fault for one in records for fault in faults(RECORD, one)] == []
        assert [one["status"] for one in records] == ["made"] * 3 + ["refused"]
        for path, record in zip(SAMPLES, records[:3], strict=False):
            assert json.loads((tmp_path / dialect / f"{path.stem}.json").read_text()) == record
            verdict = printed("compare", path, tmp_path / dialect / record["program"]["file"], "--json")
            assert faults(VERDICT, verdict) == []
            assert verdict["agree"] is True
            assert verdict["grooves"] == record["verification"]["grooves"]


def test_compare_prints_it_for_a_program_that_differs(tmp_path):
    ring = draw_ring(tmp_path / "ring.dxf")
    other = draw_ring(tmp_path / "other.dxf", ((-10, -13, 34), (-30, -34, 33)))
    printed("make", other, "--json")
    verdict = printed("compare", ring, tmp_path / "other.nc", "--json")
    assert faults(VERDICT, verdict) == []
    assert verdict["agree"] is False
    assert {one["state"] for one in verdict["grooves"]} >= {"matches", "missing", "extra"}


@pytest.mark.parametrize(
    ("form", "value"),
    [
        (int, True), (int, 1.0), (bool, 1), ({"a"}, "b"), ([int], [1, "x"]), ([int], 1),
        ({"a": int}, {}), ({"a": int}, {"a": "x"}), ({"a": int}, []), ((int, NONE), "x"), (NUMBER, True),
    ],
)  # fmt: skip
def test_the_comparison_with_a_form_can_fail(form, value):
    assert faults(form, value)


@pytest.mark.parametrize(
    ("form", "value"),
    [(int, 1), (NUMBER, 1.5), ({"a", None}, None), ([int], []), ({"a": int}, {"a": 1, "b": 2}), ((int, NONE), None)],
)
def test_and_what_is_of_its_form_passes(form, value):
    assert faults(form, value) == []
