"""Kinds that are rare on part drawings: read where they draw lines, named where they show what can't be read."""

import pytest
from support.sheets import blank, bytes_of, codes, drawn, loaded, read_back, tags


def with_entity(doc, kind, *pairs):
    """The file of a document with one more entity, written as tags, in model space."""
    doc.modelspace().add_line((0, 0), (5, 0))
    data = bytes_of(doc).replace(b"\r\n", b"\n")
    end = data.index(b"ENDSEC", data.index(b"\nENTITIES\n"))
    owner = doc.modelspace().layout_key
    body = tags((0, kind), (5, "FF1"), (330, owner), (100, "AcDbEntity"), (8, "0"), *pairs)
    return data[:end] + body.removeprefix(b"  0\n") + b"  0\n" + data[end:]


def test_a_multiline_gives_its_parallel_lines():
    sheet = drawn(lambda m: m.add_mline([(0, 0), (10, 0)]))
    assert sorted(row[1] for row in sheet.segments.ends) == [-0.5, 0.5] or len(sheet.segments) >= 2
    assert {s.kind for s in sheet.segments.sources} == {"MLINE"}


def test_the_texts_of_a_table_are_read_where_the_table_stands():
    doc = blank()
    doc.blocks.new("*T1").add_mtext("ISO 2768-mK", dxfattribs={"insert": (1, 1), "char_height": 2})
    place = ((100, "AcDbBlockReference"), (2, "*T1"), (10, 100.0), (20, 50.0), (30, 0.0), (100, "AcDbTable"))
    (text,) = loaded(with_entity(doc, "ACAD_TABLE", *place)).texts
    assert (text.text, text.at) == ("ISO 2768-mK", (101.0, 49.0))


@pytest.mark.parametrize("kind", ["OLE2FRAME", "ACAD_PROXY_ENTITY", "SHAPE"])
def test_what_cannot_be_read_is_named(kind):
    markers = {"OLE2FRAME": "AcDbOle2Frame", "ACAD_PROXY_ENTITY": "AcDbProxyEntity", "SHAPE": "AcDbShape"}
    sheet = loaded(with_entity(blank(), kind, (100, markers[kind]), (70, 2)))
    assert len(sheet.segments) == 1
    (finding,) = sheet.findings
    assert (finding.code, finding.level) == ("unreadable-left-out", "caution")
    assert kind in finding.message


def test_a_picture_is_named():
    doc = blank()
    definition = doc.add_image_def("scan.png", (100, 100))
    doc.modelspace().add_image(definition, (0, 0), (10, 10))
    assert codes(read_back(doc)) == {"unreadable-left-out"}


def test_a_reference_to_another_file_is_named():
    doc = blank()
    doc.add_xref_def("other.dxf", "OTHER")
    doc.modelspace().add_blockref("OTHER", (0, 0))
    sheet = read_back(doc)
    assert codes(sheet) == {"block-elsewhere"}
    assert "OTHER" in sheet.findings[0].message


def test_an_aligned_dimension_written_as_such():
    doc = blank()
    points = ((13, 0.0), (23, 0.0), (14, 3.0), (24, 4.0))
    head = ((100, "AcDbDimension"), (2, "*D1"), (10, 3.0), (20, 5.0), (11, 1.0), (21, 4.0), (70, 33), (3, "Standard"))
    sheet = loaded(with_entity(doc, "DIMENSION", *head, (100, "AcDbAlignedDimension"), *points))
    (dimension,) = sheet.dimensions
    assert (dimension.kind, dimension.measured) == ("aligned", pytest.approx(5))


def test_a_dimension_of_a_style_the_file_lacks():
    doc = blank()
    points = ((13, 0.0), (23, 0.0), (14, 3.0), (24, 4.0))
    head = ((100, "AcDbDimension"), (2, "*D1"), (10, 3.0), (20, 5.0), (70, 32), (3, "GONE"))
    (dimension,) = loaded(with_entity(doc, "DIMENSION", *head, (100, "AcDbAlignedDimension"), *points)).dimensions
    assert (dimension.factor, dimension.deviations, dimension.measured) == (1.0, None, pytest.approx(3))


def test_a_dimension_without_its_points_is_none():
    head = ((100, "AcDbDimension"), (2, "*D1"), (10, 3.0), (20, 5.0), (70, 32), (3, "Standard"))
    assert loaded(with_entity(blank(), "DIMENSION", *head, (100, "AcDbAlignedDimension"))).dimensions == ()


def test_a_hatch_of_very_many_edges_counts_as_many():
    doc = blank()
    path = doc.modelspace().add_hatch().paths
    path.add_polyline_path([(k, k % 2) for k in range(100_001)])
    assert codes(read_back(doc)) == {"too-many-entities"}
