"""A text looked through for runs of plain entities gives the document that the reader library alone gives.

Oracle: the library's own loading of the same text, entity by entity with all attributes, in their order; where it
refuses a text, so must the other way.
"""

import io
import random
from pathlib import Path

import ezdxf
import pytest
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import read as read_text

from extractor.opening import loading
from extractor.opening.fileform import is_binary
from extractor.opening.line_rows import LineRow

DRAWINGS = sorted((Path(__file__).parents[2] / "drawings").glob("*.dxf"))
CHANGES = 50


def one_by_one(space):
    """The entities of a layout or block, the lines of a row as entities."""
    for entity in space:
        yield from entity.lines() if isinstance(entity, LineRow) else (entity,)


def told(doc):
    """All entities of all layouts and blocks, with every attribute."""
    return [
        (
            record.dxf.name,
            [(e.dxftype(), sorted(e.dxfattribs().items(), key=str)) for e in one_by_one(record.entity_space)],
        )
        for record in doc.block_records
    ]


def either(load):
    """What a loading gives, or that it refuses."""
    try:
        return told(load())
    except Exception:
        return "refused"


def both(text, version="AC1027"):
    """What is read here and by the library alone."""
    here = either(lambda: loading.document_of(text, version))
    return here, either(lambda: read_text(io.StringIO(text, newline=None)))


def text_of(doc):
    out = io.StringIO()
    doc.write(out)
    return out.getvalue()


@pytest.fixture(scope="module")
def sheet():
    """A text with runs in model space, on a layout and in a block, broken by other kinds, with widths and colours."""
    doc = ezdxf.new("R2013")
    block = doc.blocks.new("PART")
    for space in (doc.modelspace(), doc.paperspace(), block):
        for k in range(3):
            space.add_line((k, 0, k), (k, 5), dxfattribs={"layer": "BODY", "color": k, "lineweight": 35})
        space.add_lwpolyline([(0, 0), (1, 1)])
        space.add_circle((1, 2), 3)
        space.add_arc((1, 2), 3, 10, 90, dxfattribs={"extrusion": (0, 0, -1), "ltscale": 0.5})
        space.add_ellipse((1, 2), (3, 0.5), 0.4, 0.1, 2)
        space.add_text("20", height=3.5, rotation=90).set_placement((1, 2), align=TextEntityAlignment.MIDDLE_CENTER)
        space.add_line((0, 0), (9, 9)).set_xdata("ACAD", [(1000, "more")])
        space.add_line((0, 1), (9, 9), dxfattribs={"invisible": 1, "true_color": 255})
        space.add_line((0, 2), (9, 9))
    doc.modelspace().add_blockref("PART", (0, 0))
    return text_of(doc)


def test_a_run_is_made_here_and_lies_where_it_was_drawn(sheet, monkeypatch):
    def no_library(_):
        raise AssertionError("the whole text went to the library")

    want = told(read_text(io.StringIO(sheet, newline=None)))
    monkeypatch.setattr(loading, "read_text", no_library)
    assert told(loading.document_of(sheet, "AC1027")) == want


def test_the_library_sees_one_of_each_run(sheet):
    codes, values = loading._tags(sheet)
    runs = []
    kept = [tag.value for tag in loading._without_runs(codes, values, runs) if tag.code == 0]
    # Of the block and of model space: before the polyline, before and behind the extra data. All on paper is odd.
    assert [len(run.behind) for run in runs] == [2, 3, 1] * 2
    assert sum(values[k] in loading.PLAIN for k, code in enumerate(codes) if code == 0) == 30
    assert sum(kind in loading.PLAIN for kind in kept) == 30 - 12


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_every_sample_is_the_same_document(path):
    data = path.read_bytes()
    if not is_binary(data):
        here, library = both(data.decode("utf-8", "surrogateescape"))
        assert here == library


ODD = {
    "a whole number written as a real one": (" 62\n1\n", " 62\n1.0\n"),
    "a number that is none": (" 62\n1\n", " 62\nred\n"),
    "a coordinate that is none": (" 11\n1.0\n", " 11\n1.0.0\n"),
    "a line of two handles": ("LINE\n  5\n", "LINE\n  5\nAA1\n  5\n"),
    "a group of another kind": ("370\n35\n", "290\n1\n"),
    "a comment within": ("370\n35\n", "999\nwords\n370\n35\n"),
    "an end within": ("CIRCLE\n", "EOF\n"),
    "an entity without a handle": ("TEXT\n  5\n", "TEXT\n  6\n"),
    "old line ends": ("\n", "\r"),
    "line ends of two kinds": ("LINE\n", "LINE\r\n"),
    "no end": ("EOF\n", ""),
    "a group code that is none": ("LINE\n  5\n", "LINE\n  5a\n"),
    "on another layout": ("AcDbEntity\n  8\nBODY\n", "AcDbEntity\n 67\n1\n  8\nBODY\n"),
}


@pytest.mark.parametrize("name", ODD)
def test_what_is_odd_is_read_as_the_library_reads_it(sheet, name):
    old, new = ODD[name]
    changed = sheet.replace(old, new)
    assert changed != sheet
    here, library = both(changed)
    assert here == library


def test_two_entities_of_one_handle_stay_two(sheet):
    handle = sheet.split("\nLINE\n  5\n")[2].split("\n")[0]
    again = sheet.split("\nLINE\n  5\n")[3].split("\n")[0]
    here, library = both(sheet.replace(f"\n  5\n{again}\n", f"\n  5\n{handle}\n"))
    assert here == library


def test_changed_lines_are_read_as_the_library_reads_them(sheet):
    start = random.Random(14)
    lines = sheet.split("\n")
    first = next(k for k, line in enumerate(lines) if line == "ENTITIES")
    for _ in range(CHANGES):
        changed = list(lines)
        k = start.randrange(first, len(lines))
        match start.randrange(4):
            case 0:
                del changed[k]
            case 1:
                changed.insert(k, changed[k])
            case 2:
                changed[k] = changed[start.randrange(first, len(lines))]
            case _:
                del changed[k : k + 2]
        here, library = both("\n".join(changed))
        assert here == library, (k, lines[k])
