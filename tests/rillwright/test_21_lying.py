"""Edited programs under `make`: never lost, never taken for ours, held against the drawing while that stands."""

import json
import unicodedata

import pytest
from support.door import run
from support.drawings import draw_ring

THREE = ((-10, -13, 34), (-20, -23, 34), (-30, -33, 34))


@pytest.fixture
def ring(tmp_path):
    draw_ring(tmp_path / "ring.dxf")
    assert make(tmp_path / "ring.dxf").exit_code == 0
    return tmp_path


def make(*words):
    return run("make", *words)


def programs(folder):
    return {path.name: path.read_bytes() for path in folder.iterdir() if ".nc" in path.name}


def edit(folder, old, new):
    """Change the program as somebody at the machine does; its text then."""
    text = (folder / "ring.nc").read_text()
    assert old in text
    (folder / "ring.nc").write_text(text.replace(old, new))
    return (folder / "ring.nc").read_bytes()


def record(folder, stem="ring"):
    return json.loads((folder / f"{stem}.json").read_text())


@pytest.mark.parametrize(
    ("old", "new", "agree", "title", "words"),
    [
        ("F0.08", "F0.06", True, "Edited, still right", "it was held against the drawing and still makes it"),
        ("X34.", "X33.", False, "Edited, and wrong", "no longer makes the drawing (groove 1: depth; groove 2: depth)"),
    ],
)
def test_while_the_drawing_stands_it_stays_and_is_held_against_it(ring, old, new, agree, title, words):
    text = edit(ring, old, new)
    for _ in range(2):
        told = make(ring / "ring.dxf")
        assert told.exit_code == (0 if agree else 1)
        assert words in told.output
        assert programs(ring) == {"ring.nc": text}
    assert record(ring)["edited"]["agree"] is agree
    assert "program-edited" in [one["code"] for one in record(ring)["findings"]]
    page = (ring / "ring.html").read_text()
    assert title in page
    assert "was not checked" not in page
    (ring / "ring.nc").unlink()
    assert make(ring / "ring.dxf").exit_code == 0
    assert "edited" not in record(ring)
    assert "program-edited" not in [one["code"] for one in record(ring)["findings"]]


def test_a_revision_or_a_refusal_gives_it_a_name_of_its_own(ring):
    one = edit(ring, "X34.", "X33.")
    draw_ring(ring / "ring.dxf", THREE)
    assert make(ring / "ring.dxf").exit_code == 0
    made = (ring / "ring.nc").read_bytes()
    assert programs(ring) == {"ring.nc": made, "ring.edited-1.nc": one}
    words = "The ring.nc that was here was edited after it was written; it is kept as ring.edited-{}.nc."
    assert words.format(1) in [one["message"] for one in record(ring)["findings"]]
    assert "it is kept as" in (ring / "ring.html").read_text()
    two = edit(ring, "X34.", "X32.")
    draw_ring(ring / "ring.dxf", ())
    assert make(ring / "ring.dxf").exit_code == 1
    assert programs(ring) == {"ring.edited-1.nc": one, "ring.edited-2.nc": two}
    messages = [one["message"] for one in record(ring)["findings"]]
    assert words.format(2) in messages
    assert any("ring.edited-1.nc lies here too" in one for one in messages)


def test_what_can_not_be_a_program_is_no_verified_one(ring):
    (ring / "ring.nc").unlink()
    (ring / "ring.nc").symlink_to("/dev/zero")
    told = make(ring / "ring.dxf")
    assert told.exit_code == 1
    assert "can't be judged: it is a link or no plain file. Don't run it." in told.output


@pytest.mark.parametrize("name", ["ring.dxf", "Ring.DXF"])
def test_another_drawing_of_the_name_is_refused_and_both_are_named(tmp_path, name):
    for folder, spots in (("a", THREE), ("b", THREE[:1])):
        (tmp_path / folder).mkdir()
        draw_ring(tmp_path / folder / ("ring.dxf" if folder == "a" else name), spots)
    out = tmp_path / "out"
    assert make(tmp_path / "a" / "ring.dxf", "--out", out).exit_code == 0
    before = {path: path.read_bytes() for path in out.iterdir()}
    told = make(tmp_path / "b" / name, "--out", out, "--json")
    assert told.exit_code == 1
    (refused,) = json.loads(told.stdout)
    assert refused["status"] == "refused"
    assert str(tmp_path / "a" / "ring.dxf") in refused["findings"][0]["message"]
    assert str(tmp_path / "b" / name) in refused["findings"][0]["message"]
    assert {path: path.read_bytes() for path in out.iterdir()} == before
    # Once the first is gone the name is free, and its program makes room.
    (tmp_path / "a" / "ring.dxf").unlink()
    assert make(tmp_path / "b" / name, "--out", out).exit_code == 0
    assert len([one for one in programs(out) if one.endswith(".nc")]) == 1


def test_results_and_drawings_may_be_moved_together(ring, tmp_path):
    moved = tmp_path / "moved"
    moved.mkdir()
    for path in [one for one in ring.iterdir() if one != moved]:
        path.rename(moved / path.name)
    draw_ring(tmp_path / "ring.dxf", THREE)
    draw_ring(moved / "ring.dxf", THREE[:1])
    assert make(moved / "ring.dxf").exit_code == 0


def test_accents_put_together_another_way_are_the_same_name(tmp_path):
    one, other = (unicodedata.normalize(form, "écart.dxf") for form in ("NFC", "NFD"))
    draw_ring(tmp_path / one)
    assert make(tmp_path / one).exit_code == 0
    draw_ring(tmp_path / other, THREE)
    assert make(tmp_path / other).exit_code == 1
    (tmp_path / one).unlink()
    assert make(tmp_path / other).exit_code == 0
    assert [one for one in programs(tmp_path) if one.endswith(".nc")] == [other.replace("dxf", "nc")]
