"""The overlay is the drawing itself with what was read on layers of its own, and reads back as the same part."""

import math
import os
import re
from pathlib import Path

import ezdxf
import pytest
from support.sheets import blank
from support.ties import bar, frame

from extractor.codes import DrawingCode
from extractor.dxf import load_sheet
from extractor.errors import DrawingError, SettingsError
from extractor.finding import Finding, Level
from extractor.ink import InkLedger
from extractor.overlay import LAYERS, OVERLAY_PREFIX, write_overlay
from extractor.part import Reading

SETS = ((1, 2), (3,))


def reading_of(part, *findings):
    """A reading with this part, and one line that nothing explains."""
    return Reading(
        "x.dxf", "0" * 64, "mm", part, findings, ink=InkLedger(100.0, {}, 5.0, (((0.0, 50.0), (5.0, 50.0)),))
    )


def saved(tmp_path, version="R2010"):
    """A drawing with a few entities, on disk."""
    doc = blank(version)
    msp = doc.modelspace()
    msp.add_line((0, 0), (60, 0), dxfattribs={"linetype": "CENTER"})
    msp.add_text("Ø40 title %%c", height=3)
    msp.add_linear_dim(base=(0, 30), p1=(0, 20), p2=(60, 20), dimstyle="Standard").render()
    path = tmp_path / "drawing.dxf"
    doc.saveas(path)
    return path


def overlaid(tmp_path, reading, version="R2010", sets=SETS):
    """The document of the overlay."""
    write_overlay(saved(tmp_path, version), reading, sets, tmp_path / "out.dxf")
    return ezdxf.readfile(tmp_path / "out.dxf")


def on_layer(doc, name, kind="*"):
    """Entities on one of the overlay's layers."""
    return list(doc.modelspace().query(f'{kind}[layer=="{OVERLAY_PREFIX}{name}"]'))


def test_a_group_of_the_drawings_lines_stays_whole(tmp_path):
    doc = blank("R2010")
    lines = [doc.modelspace().add_line((0, k), (60, k)) for k in range(4)]
    doc.groups.new("EDGES").extend(lines)
    doc.saveas(tmp_path / "grouped.dxf")
    alone = re.sub(r"102\n\{ACAD_REACTORS\n330\n\w+\n102\n\}\n", "", (tmp_path / "grouped.dxf").read_text("utf-8"))
    (tmp_path / "grouped.dxf").write_text(alone, "utf-8")  # as of writers that don't tell a line of its group
    write_overlay(tmp_path / "grouped.dxf", reading_of(bar()), SETS, tmp_path / "out.dxf")
    (group,) = [group for _, group in ezdxf.readfile(tmp_path / "out.dxf").groups]
    assert {one.dxf.handle for one in group} == {line.dxf.handle for line in lines}


@pytest.mark.parametrize("version", ["R12", "R2000", "R2010", "R2018"])
def test_the_drawings_own_entities_are_untouched(tmp_path, version):
    doc = overlaid(tmp_path, reading_of(bar()), version)
    before = ezdxf.readfile(tmp_path / "drawing.dxf")
    assert doc.dxfversion == before.dxfversion
    for entity in before.modelspace():
        copy = doc.entitydb[entity.dxf.handle]
        assert copy.dxftype() == entity.dxftype()
        assert copy.dxfattribs(drop={"owner"}) == entity.dxfattribs(drop={"owner"})


def test_every_feature_has_its_layer(tmp_path):
    doc = overlaid(
        tmp_path, reading_of(bar(), Finding(Level.CAUTION, DrawingCode.LEFT_OUT, "Look here.", at=(5.0, 6.0)))
    )
    assert {name for name in LAYERS if on_layer(doc, name)} == set(LAYERS)
    assert all(doc.layers.get(OVERLAY_PREFIX + name).dxf.plot == 0 for name in LAYERS)


@pytest.mark.parametrize("turn", [0, 90, 200])
def test_outline_axis_and_front_lie_where_the_part_lies(tmp_path, turn):
    at = frame(turn, scale=2.0)
    part = bar(at=at)
    doc = overlaid(tmp_path, reading_of(part))
    upper, lower = on_layer(doc, "OUTLINE", "LWPOLYLINE")
    corners = [(x, y) for x, y, *_ in upper]
    assert corners == [pytest.approx(at.on_sheet(z, r)) for z, r in part.outline]
    assert [(x, y) for x, y, *_ in lower] == [pytest.approx(at.on_sheet(z, -r)) for z, r in part.outline]
    (front,) = on_layer(doc, "FRONT", "LWPOLYLINE")
    ends = [(x, y) for x, y, *_ in front]
    assert [(a + b) / 2 for a, b in zip(*ends, strict=True)] == pytest.approx(at.origin)


def test_grooves_are_numbered_at_their_mouths(tmp_path):
    doc = overlaid(tmp_path, reading_of(bar()))
    numbers = {t.dxf.text: t.dxf.insert for t in on_layer(doc, "GROOVES", "TEXT")}
    assert sorted(numbers) == ["1", "2", "3"]
    assert (numbers["1"].x, numbers["1"].y > 70) == (pytest.approx(88.5), True)
    assert len(on_layer(doc, "GROOVES", "LWPOLYLINE")) == 6


def test_sets_of_more_than_one_are_bracketed_with_their_pitch(tmp_path):
    doc = overlaid(tmp_path, reading_of(bar()))
    assert [t.dxf.text for t in on_layer(doc, "SETS", "TEXT")] == ["2 at pitch 10.0000"]


def test_findings_are_listed_stops_first_and_ringed_where_they_are(tmp_path):
    findings = (
        Finding(Level.NOTE, DrawingCode.GAPS_CLOSED, "Noted."),
        Finding(Level.STOP, DrawingCode.NO_TURNED_PART, "Stopped 100%%c.", at=(7.0, 8.0)),
    )
    doc = overlaid(tmp_path, reading_of(bar(), *findings))
    (ring,) = on_layer(doc, "FINDINGS", "CIRCLE")
    assert (ring.dxf.center.x, ring.dxf.center.y) == (7, 8)
    words = [t.dxf.text for t in on_layer(doc, "FINDINGS", "TEXT")]
    assert words == ["1", "1 stop: Stopped 100% %c.", "2 note: Noted."]


def test_a_reading_without_a_part_shows_its_findings(tmp_path):
    reading = Reading(
        "x.dxf", "0" * 64, None, None, (Finding(Level.STOP, DrawingCode.NO_TURNED_PART, "Nothing here."),)
    )
    doc = overlaid(tmp_path, reading, sets=())
    assert [t.dxf.text for t in on_layer(doc, "FINDINGS", "TEXT")] == ["1 stop: Nothing here."]


@pytest.mark.parametrize("version", ["R12", "R2018"])
def test_read_again_it_is_the_same_sheet(tmp_path, version):
    overlaid(tmp_path, reading_of(bar()), version)
    before, after = load_sheet(tmp_path / "drawing.dxf"), load_sheet(tmp_path / "out.dxf")
    assert after.segments.ends.tolist() == before.segments.ends.tolist()
    assert after.texts == before.texts
    assert after.dimensions == before.dimensions


def test_tables_without_handles_get_some_of_their_own(tmp_path):
    """Tables of R2000 that leave their handles out, as some writers do; handles of the copy are counted as text."""
    path, out = saved(tmp_path, "R2000"), tmp_path / "out.dxf"
    bare, tables = re.subn(r"(  0\nTABLE\n  2\n\w+\n)  5\n\w+\n330\n0\n", r"\1", path.read_text("cp1252"))
    assert tables == 9  # of the DXF reference
    path.write_text(bare, "cp1252")
    write_overlay(path, reading_of(bar()), SETS, out)
    handles = re.findall(r"(?:^|\n)  5\n(\w+)\n", out.read_text("cp1252").partition("TABLES")[2])
    assert len(handles) == len(set(handles))
    assert re.search(r"TABLE\n  2\nLAYER\n  5\n\w", out.read_text("cp1252"))
    assert load_sheet(out).segments.ends.tolist() == load_sheet(path).segments.ends.tolist()


def test_an_overlay_of_an_overlay_has_no_second_layers(tmp_path):
    overlaid(tmp_path, reading_of(bar()))
    write_overlay(tmp_path / "out.dxf", reading_of(bar()), SETS, tmp_path / "twice.dxf")
    assert math.isclose(load_sheet(tmp_path / "twice.dxf").segments.ends[0, 2], 60)


def test_the_drawing_itself_is_never_overwritten(tmp_path):
    path = saved(tmp_path)
    before = path.read_bytes()
    with pytest.raises(SettingsError, match="would overwrite the drawing"):
        write_overlay(path, reading_of(bar()), SETS, tmp_path / "." / "drawing.dxf")
    assert path.read_bytes() == before


def test_a_place_that_cannot_be_written_leaves_nothing_behind(tmp_path):
    with pytest.raises(SettingsError, match="can't be written: no such file"):
        write_overlay(saved(tmp_path), reading_of(bar()), SETS, tmp_path / "gone" / "out.dxf")
    (tmp_path / "folder.dxf").mkdir()
    with pytest.raises(SettingsError, match="can't be written"):
        write_overlay(saved(tmp_path), reading_of(bar()), SETS, tmp_path / "folder.dxf")
    assert sorted(p.name for p in tmp_path.iterdir()) == ["drawing.dxf", "folder.dxf"]


def test_a_drawing_that_cannot_be_read_is_refused(tmp_path):
    with pytest.raises(DrawingError):
        write_overlay(Path(tmp_path / "gone.dxf"), reading_of(bar()), SETS, tmp_path / "out.dxf")


def test_others_may_read_the_copy_as_far_as_the_users_mask_lets_them(tmp_path):
    before = os.umask(0o027)
    try:
        overlaid(tmp_path, reading_of(bar()))
    finally:
        os.umask(before)
    assert (tmp_path / "out.dxf").stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize(
    "damage", [{b"\n 10\n": b"\n 1x\n"}, {b"ACDBDICTIONARYWDFLT": b"DICTIONARY", b"Normal": b"Usual"}]
)
def test_a_drawing_too_damaged_to_be_copied_is_named_and_leaves_nothing(tmp_path, damage):
    """By a code in the tags, and by the name of the plot style that every new layer needs."""
    drawing, out = saved(tmp_path), tmp_path / "copy.dxf"
    for whole, damaged in damage.items():
        drawing.write_bytes(drawing.read_bytes().replace(whole, damaged))
    with pytest.raises(DrawingError, match=r"x\.dxf is too damaged for a copy"):
        write_overlay(drawing, reading_of(bar()), SETS, out)
    assert [path.name for path in tmp_path.iterdir()] == [drawing.name]
