"""Lines held in rows give the sheet that the same lines give one by one.

Oracle: the same file loaded by the reader library alone, which knows no rows.
"""

import io

import ezdxf
import numpy as np
import pytest
from ezdxf.entities.line import Line
from ezdxf.filemanagement import read as read_text

from extractor import dxf
from extractor.opening import loading
from extractor.opening.line_rows import LineRow
from extractor.sheet import Pen


def drawn(tmp_path, lines, more=lambda doc: None):
    """A file with lines of (start, end, attributes) in model space."""
    doc = ezdxf.new("R2010", setup=True)
    doc.layers.add("GONE").freeze()
    doc.layers.add("BODY")
    for start, end, attributes in lines:
        doc.modelspace().add_line(start, end, dxfattribs=attributes)
    more(doc)
    path = tmp_path / "lines.dxf"
    doc.saveas(path)
    return path


def told(sheet):
    """All of a sheet that its lines decide."""
    s = sheet.segments
    return repr(s.ends.tolist()), s.bulge.tolist(), [s.sources[k] for k in s.source], sheet.circles, sheet.findings


def both(path, monkeypatch):
    """What is read with rows and without, and how long the rows are."""
    rows = []

    def seen(text, version):
        doc = document_of(text, version)
        rows.extend(len(e) for e in doc.modelspace() if isinstance(e, LineRow))
        return doc

    document_of = loading.document_of
    monkeypatch.setattr(dxf, "document_of", seen)
    here = told(dxf.load_sheet(path))
    monkeypatch.setattr(dxf, "document_of", lambda text, _: read_text(io.StringIO(text, newline=None)))
    return here, told(dxf.load_sheet(path)), rows


PLAIN = [((k, 0), (k, 5 + k), {"layer": "BODY"}) for k in range(4)]
CASES = {
    "one look": (PLAIN, [3]),
    "a look for each two": ([(a, b, {"color": k // 2}) for k, (a, b, _) in enumerate(PLAIN)], [1, 2]),
    "no word of a look": ([(a, b, {}) for a, b, _ in PLAIN], [3]),
    "hidden ones between": (
        [*PLAIN[:2], *(((9, k), (8, k), {"layer": "GONE"}) for k in range(3)), *PLAIN[2:]],
        [1, 3, 2],
    ),
    "invisible ones": ([*PLAIN, *((a, b, {"invisible": 1}) for a, b, _ in PLAIN)], [3, 4]),
    "wires": ([*PLAIN, *(((k, 9, 0), (k, 8, 3), {"layer": "BODY"}) for k in range(4))], [7]),
    "a slope just over a thousandth": ([*PLAIN, ((0, 9, 0), (1, 9, 0.00101), {"layer": "BODY"})], [4]),
    "a slope just under a thousandth": ([*PLAIN, ((0, 9, 0), (1, 9, 0.00099), {"layer": "BODY"})], [4]),
    "just too far": ([*PLAIN, ((0, 9), (1.01e9, 9), {"layer": "BODY"}), ((0, 8), (1, 8), {"layer": "BODY"})], [5]),
    "just not too far": ([*PLAIN, ((0, 9), (0.99e9, 9), {"layer": "BODY"})], [4]),
    "all too far": ([((2e9, 0), (k, 0), {"layer": "BODY"}) for k in range(3)], [2]),
    "below nothing": ([((-0.0, k), (1, -0.0), {"layer": "BODY"}) for k in range(3)], [2]),
    "pens": ([(a, b, {"linetype": "CENTER" if k > 1 else "DASHED"}) for k, (a, b, _) in enumerate(PLAIN)], [1, 2]),
    "drawn twice": (PLAIN * 2, [7]),
}


@pytest.mark.parametrize("name", CASES)
def test_rows_give_the_same_sheet(tmp_path, monkeypatch, name):
    lines, lengths = CASES[name]
    here, library, rows = both(drawn(tmp_path, lines), monkeypatch)
    assert rows == lengths
    assert here == library


@pytest.mark.parametrize("number", ["1e400", "nan", "-inf"])
def test_a_number_without_an_end_is_damage_in_a_row(tmp_path, monkeypatch, number):
    path = drawn(tmp_path, [((7.25, k), (1, 2), {}) for k in range(3)])
    path.write_text(path.read_text().replace("7.25", number))
    here, library, rows = both(path, monkeypatch)
    assert rows == [2]
    assert here == library
    assert [f.code for f in here[-1]] == ["entity-damaged"]


def test_model_space_set_down_as_a_block_is_read_line_by_line(tmp_path, monkeypatch):
    def set_down(doc):
        doc.blocks.new("AGAIN").add_blockref("*Model_Space", (100, 0), dxfattribs={"rotation": 30})
        doc.modelspace().add_blockref("AGAIN", (0, 0))

    here, library, rows = both(drawn(tmp_path, PLAIN, set_down), monkeypatch)
    assert rows == [3]
    assert here == library
    assert len(here[1]) > len(PLAIN)


def test_a_row_counts_as_its_lines(tmp_path):
    doc = loading.document_of(drawn(tmp_path, PLAIN).read_text(), "AC1024")
    (row,) = (e for e in doc.modelspace() if isinstance(e, LineRow))
    assert dxf.Walk(doc).weight(doc.modelspace()) == 4
    assert [line.dxf.handle for line in row.lines()] == list(row.handles)
    assert np.array_equal([(*line.dxf.start, *line.dxf.end) for line in row.lines()], row.ends)


@pytest.mark.parametrize(("again", "looks"), [(2, 4), (2, 2), (3, 1)])
def test_lines_of_one_handle_go_to_the_library(tmp_path, monkeypatch, again, looks):
    path = drawn(tmp_path, [(a, b, {"color": k // looks}) for k, (a, b, _) in enumerate(PLAIN)])
    parts = path.read_text().split("\nLINE\n  5\n")
    handles = [part.split("\n")[0] for part in parts[-4:]]
    path.write_text(path.read_text().replace(f"\n  5\n{handles[again]}\n", f"\n  5\n{handles[1]}\n"))
    here, library, rows = both(path, monkeypatch)
    assert not rows
    assert here == library


def test_segments_are_picked_by_all_that_their_entities_say_but_the_handle(tmp_path):
    looks = [{"layer": layer, "linetype": pen} for layer in ("0", "BODY") for pen in ("CENTER", "DASHED", "CENTER")]
    segments = dxf.load_sheet(drawn(tmp_path, [((k, 0), (k, 5), look) for k, look in enumerate(looks)])).segments
    assert segments.of(lambda s: s.pen is Pen.CENTRE).tolist() == [True, False, True] * 2
    assert segments.of(lambda s: s.layer == "BODY").tolist() == [False] * 3 + [True] * 3


@pytest.mark.parametrize(("most", "count"), [(0.59, 1), (0.6, 0)])
def test_a_line_is_tilted_if_it_rises_by_more_than_a_share_of_its_length(most, count):
    """4 along and 3 up: 5 long."""
    row = LineRow(
        Line.new(dxfattribs={"handle": "A"}), ("A", "B"), np.array([[1, 2, 0, 5, 2, 3], [1, 2, 3, 5, 2, 3.0]])
    )
    assert row.tilted(most) == count


def test_a_line_that_ends_at_minus_nothing_ends_at_nothing():
    row = LineRow(Line.new(dxfattribs={"handle": "A"}), ("A",), np.array([[-0.0, 2, 0, 5, -0.0, 0]]))
    assert not np.signbit(row.flat().ends).any()
