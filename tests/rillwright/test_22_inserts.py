"""A program compared without a shop file: by its heading, the record beside it or --set, or not at all."""

import json

import pytest
from support.door import run
from support.drawings import draw_ring
from support.forms import make_drawing

from planner import parse_shop
from rillwright.check import compare_files, comparison_svg, comparison_text
from rillwright.explained import explained
from rillwright.inserts import recorded_inserts, with_told_inserts
from rillwright.settings import Settings

SHOP = """units = "mm"
[[tools]]
station = 3
width = 3.0
corner_radius = 0.0
max_depth = 12.0
reference = "far"
"""
HAND = "O1\nG21 G99\nT0303\nG97 S900 M03\nG00 X42. Z-13.\nG75 R.5\n"
HAND += "G75 X34. Z-23. P1000 Q10000 F.08\nG00 X100.\nZ50.\nM30\n"


@pytest.fixture
def ring(tmp_path):
    """A drawing with its program, made for a shop whose T0303 is 3 wide (the built-in T0303 is 1 wide)."""
    path = draw_ring(tmp_path / "ring.dxf")
    assert make_drawing(path, None, Settings(shop_text=SHOP, shop_name="s.toml"))["status"] == "made"
    return path


def bare(path):
    """Take the comments about inserts out of a program."""
    lines = path.read_text().splitlines()
    path.write_text("\n".join(line for line in lines if not line.startswith("(T")) + "\n")


def test_what_was_just_made_agrees_without_a_shop_file(ring):
    for setting in (Settings(), Settings(shop_text=SHOP)):
        verdict = compare_files(ring, ring.with_suffix(".nc"), setting).verdict
        assert verdict.agree
        assert {f.code for f in verdict.findings} == {"dialect-guessed"}


def test_the_record_beside_it_tells_what_the_heading_no_longer_does(ring):
    bare(ring.with_suffix(".nc"))
    assert compare_files(ring, ring.with_suffix(".nc"), Settings()).verdict.agree
    assert [g.z_near for g in explained(ring.with_suffix(".nc").read_text(), Settings()).grooves] == []
    told = explained(ring.with_suffix(".nc").read_text(), Settings(), program=ring.with_suffix(".nc"))
    assert [g.z_near for g in told.grooves] == [-10, -20]
    ring.with_suffix(".json").unlink()
    made = compare_files(ring, ring.with_suffix(".nc"), Settings())
    assert [f.code for f in made.verdict.findings] == ["insert-unknown", "dialect-guessed"]
    assert "Not judged: without its inserts" in comparison_text(made)
    assert "<svg" in comparison_svg(made)


def test_the_picture_is_cut_with_the_insert_that_was_judged(ring):
    known = comparison_svg(compare_files(ring, ring.with_suffix(".nc"), Settings(shop_text=SHOP)))
    assert comparison_svg(compare_files(ring, ring.with_suffix(".nc"), Settings())) == known


@pytest.mark.parametrize(
    "spoil",
    [
        lambda record: [],
        lambda record: {**record, "setup": None},
        lambda record: {**record, "program": {"file": "other.nc"}},
        lambda record: {**record, "setup": {**record["setup"], "units": "in"}},
        lambda record: {**record, "setup": {**record["setup"], "tools": [{"station": 3}]}},
        *(
            lambda record, key=key, value=value: {
                **record,
                "setup": {**record["setup"], "tools": [{**record["setup"]["tools"][0], key: value}]},
            }
            for key, value in [
                ("width", 0),
                ("width", "3"),
                ("width", True),
                ("width", 1e400),
                ("corner_radius", 2.0),
                ("reference", "middle"),
                ("where", None),
                ("station", 3.0),
                ("edge", ["square"]),
                ("max_depth", None),
            ]
        ),
    ],
)
def test_a_damaged_record_or_another_says_nothing(ring, spoil):
    program, path = ring.with_suffix(".nc"), ring.with_suffix(".json")
    assert [tool.name for tool in recorded_inserts(program, "mm")] == ["T0303"]
    path.write_text(json.dumps(spoil(json.loads(path.read_text()))))
    assert recorded_inserts(program, "mm") == ()


@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b"[" * 100_000, b"{}"])
def test_what_is_no_record_at_all_says_nothing(ring, data):
    ring.with_suffix(".json").write_bytes(data)
    assert recorded_inserts(ring.with_suffix(".nc"), "mm") == ()
    assert recorded_inserts(ring.with_suffix(".json"), "mm") == ()


def compare(ring, *options):
    """Exit status and output of compare with a hand program."""
    program = ring.with_name("hand.nc")
    program.write_text(HAND)
    answer = run("compare", ring, program, *options)
    return answer.exit_code, answer.output


def test_a_hand_program_needs_its_insert(ring):
    status, output = compare(ring)
    assert status == 1
    assert "Nothing says what insert T0303 is: give --shop FILE" in output
    assert "wide" not in output
    ring.with_name("s.toml").write_text(SHOP)
    assert compare(ring, "--shop", str(ring.with_name("s.toml")))[0] == 0
    assert compare(ring, "--set", "width=3")[0] == 0
    assert compare(ring, "--set", "tools.3.width=3")[0] == 0
    assert compare(ring, "--set", "feed=0.1")[0] == 1


def test_a_shop_file_without_tools_names_no_insert(ring):
    ring.with_name("m.toml").write_text("[machine]\nmax_rpm = 2500\n")
    status, output = compare(ring, "--shop", str(ring.with_name("m.toml")))
    assert status == 1
    assert "Nothing says what insert T0303 is" in output


def test_the_stations_whose_width_is_given_are_taken_as_given():
    for changes, names in (
        (["tools.3.width=3"], ["T0303"]),
        (["tools.3.width=3", "tools.5.width=4"], ["T0303", "T0505"]),
    ):
        shop = with_told_inserts(parse_shop("", "none", "mm", changes), changes)
        assert [tool.name for tool in shop.tools] == names
        assert "tools" not in shop.built_in
    other = parse_shop("", "none", "mm", ["feed=0.1"])
    assert with_told_inserts(other, ["feed=0.1"]) == other
    given = parse_shop(SHOP, "s", "mm", ["width=4"])
    assert with_told_inserts(given, ["width=4"]) == given


@pytest.mark.parametrize("kind", ["drawing", "letter"])
def test_what_is_no_program_ends_with_2_in_one_sentence(ring, kind):
    path = ring if kind == "drawing" else ring.with_name("letter.txt")
    if kind == "letter":
        path.write_text("Dear setter,\nplease run 5 pieces at S120 of the ring, G1 quality, and mind the burr.\n")
    for call in (["explain", str(path)], ["compare", str(ring), str(path)]):
        answer = run(*call)
        assert answer.exit_code == 2
        assert len(answer.output.strip().splitlines()) == 1
        assert answer.output.strip().endswith("give the file of the program.")
