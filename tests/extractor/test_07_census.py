"""No entity of a damaged file is lost in silence: a groove less would look right."""

from support.sheets import blank as blank_document
from support.sheets import bytes_of, codes, entities, line_tags, loaded

from extractor.opening.census import census

SHAPE = line_tags(0, 0, 10, 0) + line_tags(10, 0, 10, 10)


def with_lines():
    """The text of a document with three lines, one of them in a block."""
    doc = blank_document()
    doc.modelspace().add_line((0, 0), (10, 0))
    doc.modelspace().add_line((10, 0), (10, 10))
    doc.blocks.new("B").add_line((0, 0), (1, 1))
    return bytes_of(doc).replace(b"\r\n", b"\n")


def test_entities_are_counted_wherever_they_stand():
    counted = census(with_lines())
    assert counted.named["LINE"] == 3
    assert counted.merged == ()


def test_the_binary_form_is_not_counted():
    assert census(bytes_of(blank_document(), binary=True)) is None


def test_a_sound_file_loses_nothing():
    assert codes(loaded(with_lines())) == set()


def test_a_line_that_lost_its_start_is_a_stop_with_its_place():
    data = entities(*SHAPE)
    second = data.rindex(b"  0\nLINE\n")
    sheet = loaded(data[:second] + data[second + 9 :])
    (stop,) = [f for f in sheet.findings if f.stops]
    assert stop.code == "entities-lost"
    assert "before line 23" in stop.message


def test_a_line_outside_every_layout_is_a_stop():
    data = with_lines()
    start = data.index(b"  0\nLINE\n", data.index(b"\nENTITIES\n"))
    end = data.index(b"  0\n", start + 4)
    piece, rest = data[start:end], data[:start] + data[end:]
    table = rest.index(b"  0\nENDTAB\n", rest.index(b"\nSTYLE\n"))
    sheet = loaded(rest[:table] + piece + rest[table:])
    assert len(sheet.segments) == 1
    assert "entities-lost" in {f.code for f in sheet.findings if f.stops}
