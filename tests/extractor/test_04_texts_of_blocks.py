"""Texts that other entities carry: constant attributes of a block, the block of a multileader, letters spaced out.

A constant attribute and the attributes of a multileader's block are those of the DXF reference, from memory.
"""

import pytest
from ezdxf.math import Vec2
from ezdxf.render.mleader import ConnectionSide
from support.sheets import blank, read_back

from extractor.opening.texts import plain_line, plain_paragraphs


def texts(flags, insert=True, value="3 GROOVES 4.5 WIDE"):
    doc = blank()
    block = doc.blocks.new("NOTE")
    block.add_attdef("N", (2, 1), value, dxfattribs={"flags": flags, "height": 2.5})
    if insert:
        doc.modelspace().add_blockref("NOTE", (10, 20))
    return [(t.text, t.at) for t in read_back(doc).texts]


@pytest.mark.parametrize(
    ("flags", "insert", "shown"), [(2, True, True), (3, True, False), (0, True, False), (2, False, False)]
)
def test_a_constant_attribute_is_shown_by_its_block(flags, insert, shown):
    assert texts(flags, insert) == [("3 GROOVES 4.5 WIDE", pytest.approx((12.0, 21.0)))] * shown


def test_an_attribute_that_stands_in_no_block_is_none():
    doc = blank()
    doc.modelspace().add_attdef("N", (2, 1), "3 GROOVES", dxfattribs={"flags": 2})
    assert not read_back(doc).texts


@pytest.mark.parametrize(("values", "text"), [({"A": "4.5 x 3"}, "4.5 x 3"), ({"A": "4.5", "B": "WIDE"}, "4.5 WIDE")])
def test_a_multileader_carries_the_attributes_of_its_block(values, text):
    doc = blank()
    block = doc.blocks.new("NOTE")
    for tag in values:
        block.add_attdef(tag, (0, 0), "")
    builder = doc.modelspace().add_multileader_block("Standard")
    builder.set_content("NOTE")
    for tag, value in values.items():
        builder.set_attribute(tag, value)
    builder.add_leader_line(ConnectionSide.left, [(10, 17)])
    builder.build(insert=Vec2(20, 25))
    (dimension,) = read_back(doc).dimensions
    assert (dimension.kind, dimension.text) == ("leader", text)
    assert dimension.points[0] == pytest.approx((10, 17))


@pytest.mark.parametrize("read", [plain_line, plain_paragraphs])
@pytest.mark.parametrize(
    ("spaced", "meant"),
    [
        ("3  G R O O V E S  4 . 5  W I D E", "3 GROOVES 4.5 WIDE"),
        ("N U T E N  4 , 5  B R E I T", "NUTEN 4,5 BREIT"),
        ("F R O N T", "FRONT"),
        ("A B C", "A B C"),
        ("1 2 3 4 5", "1 2 3 4 5"),
        ("GROOVE A B C D", "GROOVE A B C D"),
        ("4 x 3", "4 x 3"),
    ],
)
def test_letters_spaced_out_are_words(spaced, meant, read):
    assert read(spaced) == meant
