"""What is hidden is left out and said; a line's meaning is read from pattern, name and layer, in this order."""

import pytest
from support.sheets import blank, codes, read_back

from extractor.opening.linetypes import pen_of, pen_of_name, pen_of_pattern, role_of_layer


def on_layer(state=None, **layer):
    """A sheet with one line on a layer in some state and one on layer 0."""
    doc = blank()
    added = doc.layers.add("A", **layer)
    if state:
        getattr(added, state)()
    doc.modelspace().add_line((0, 0), (1, 0), dxfattribs={"layer": "A"})
    doc.modelspace().add_line((0, 1), (1, 1))
    return doc


@pytest.mark.parametrize("state", ["freeze", "off"])
def test_frozen_layers_and_those_switched_off_are_left_out_with_a_note(state):
    sheet = read_back(on_layer(state))
    assert sheet.segments.ends.tolist() == [[0, 1, 1, 1]]
    assert [(f.code, f.level) for f in sheet.findings] == [("layer-hidden", "note")]
    assert "A" in sheet.findings[0].message


def test_layers_that_do_not_plot_are_left_out():
    doc = on_layer()
    doc.layers.get("A").dxf.plot = 0
    assert len(read_back(doc).segments) == 1


def test_locked_layers_are_drawn():
    assert len(read_back(on_layer("lock")).segments) == 2


@pytest.mark.parametrize("name", ["Defpoints", "DEFPOINTS"])
def test_the_layer_that_never_plots(name):
    doc = blank()
    doc.modelspace().add_line((0, 0), (1, 0), dxfattribs={"layer": name})
    assert len(read_back(doc).segments) == 0


def test_invisible_entities_are_left_out():
    doc = on_layer()
    doc.modelspace().add_line((0, 2), (1, 2), dxfattribs={"invisible": 1})
    sheet = read_back(doc)
    assert len(sheet.segments) == 2
    assert codes(sheet) == {"entity-invisible"}


def test_a_block_on_a_layer_switched_off_still_shows_what_lies_on_others():
    doc = on_layer("off")
    block = doc.blocks.new("B")
    block.add_line((0, 5), (1, 5), dxfattribs={"layer": "0"})
    block.add_line((0, 6), (1, 6), dxfattribs={"layer": "OTHER"})
    doc.modelspace().add_blockref("B", (0, 0), dxfattribs={"layer": "A"})
    assert [row[1] for row in read_back(doc).segments.ends] == [1, 6]


def test_a_block_on_a_frozen_layer_shows_nothing():
    doc = on_layer("freeze")
    doc.blocks.new("B").add_line((0, 6), (1, 6), dxfattribs={"layer": "OTHER"})
    doc.modelspace().add_blockref("B", (0, 0), dxfattribs={"layer": "A"})
    assert [row[1] for row in read_back(doc).segments.ends] == [1]


def test_paper_space_is_read_where_model_space_is_empty():
    doc = blank()
    doc.layout("Layout1").add_line((0, 0), (7, 0))
    sheet = read_back(doc)
    assert sheet.segments.ends.tolist() == [[0, 0, 7, 0]]
    assert [(f.code, f.level) for f in sheet.findings] == [("paper-space", "caution")]


def test_paper_space_is_left_alone_where_model_space_holds_a_drawing():
    doc = on_layer()
    doc.layout("Layout1").add_line((0, 0), (7, 0))
    assert len(read_back(doc).segments) == 2


def test_a_line_by_layer_takes_the_layers_linetype():
    doc = on_layer(linetype="CENTER")
    sheet = read_back(doc)
    assert [s.pen for s in sheet.segments.sources] == ["centre", "solid"]


@pytest.mark.parametrize("word", ["BYLAYER", "ByLayer", "bylayer"])
def test_by_layer_in_any_spelling(word):
    doc = on_layer(linetype="CENTER")
    doc.modelspace()[0].dxf.linetype = word
    assert read_back(doc).segments.sources[0].pen == "centre"


def test_a_lines_own_linetype_beats_its_layers():
    doc = on_layer(linetype="CENTER")
    doc.modelspace()[0].dxf.linetype = "DASHED"
    assert read_back(doc).segments.sources[0].pen == "hidden"


def test_by_block_takes_the_references_linetype():
    doc = blank()
    doc.blocks.new("B").add_line((0, 0), (1, 0), dxfattribs={"linetype": "BYBLOCK"})
    doc.modelspace().add_blockref("B", (0, 0), dxfattribs={"linetype": "CENTER"})
    doc.modelspace().add_blockref("B", (0, 5))
    assert [s.pen for s in read_back(doc).segments.sources] == ["centre", "solid"]


def test_a_machine_made_linetype_is_known_by_its_pattern():
    doc = blank()
    doc.linetypes.add("LT00017", pattern=[20, 12, -3, 2, -3])
    doc.modelspace().add_line((0, 0), (1, 0), dxfattribs={"linetype": "LT00017"})
    assert read_back(doc).segments.sources[0].pen == "centre"


def test_a_linetype_the_file_does_not_define_is_known_by_its_name():
    doc = blank()
    doc.modelspace().add_line((0, 0), (1, 0), dxfattribs={"linetype": "ACAD_ISO04W100"})
    assert read_back(doc).segments.sources[0].pen == "centre"


# ISO 128-20 numbers 02, 04, 05 with dash 12 d, long dash 24 d, gap 3 d, dot 0.5 d; the rest from linetype lists.
PATTERNS = [
    ("continuous", [], None),
    ("ISO dash", [12, -3], "hidden"),
    ("ISO dash space", [12, -18], "hidden"),
    ("ISO long-dash dot", [24, -3, 0.5, -3], "centre"),
    ("ISO long-dash short-dash", [24, -3, 6, -3], "centre"),
    ("ISO long-dash double-dot", [24, -3, 0.5, -3, 0.5, -3], "phantom"),
    ("ISO dot", [0.5, -3], "hidden"),
    ("dots of no length", [0, -0.25], "hidden"),
    ("centre", [1.25, -0.25, 0.25, -0.25], "centre"),
    ("dash dot", [0.5, -0.25, 0, -0.25], "centre"),
    ("phantom", [1.25, -0.25, 0.25, -0.25, 0.25, -0.25], "phantom"),
    ("divide", [0.5, -0.25, 0, -0.25, 0, -0.25], "phantom"),
    ("double dash dot", [0.5, -0.25, 0.5, -0.25, 0, -0.25], "centre"),
]


@pytest.mark.parametrize(("elements", "pen"), [row[1:] for row in PATTERNS], ids=[row[0] for row in PATTERNS])
@pytest.mark.parametrize("scale", [1.0, 0.01, 25.4])
def test_patterns_at_any_scale(elements, pen, scale):
    assert pen_of_pattern([e * scale for e in elements]) == pen


# Names met in drawings of several offices: common practice, no source.
NAMES = {
    "centre": ["CENTER", "Center2", "CENTERX2", "DASHDOT", "DASHDOTX2", "CHAIN", "ACAD_ISO04W100", "ACAD_ISO10W100"],
    "hidden": ["HIDDEN", "hidden2", "DASHED", "DASHEDX2", "DOTX2", "ACAD_ISO02W100", "ACAD_ISO03W100", "Verdeckt"],
    "phantom": ["PHANTOM", "PHANTOM2", "DIVIDE", "ACAD_ISO05W100"],
    None: ["Continuous", "LT1", "SLD-Solid", ""],
}


@pytest.mark.parametrize(("name", "pen"), [(n, pen) for pen, names in NAMES.items() for n in names])
def test_names(name, pen):
    assert pen_of_name(name) == pen


def test_the_pattern_beats_the_name():
    assert pen_of("CENTER", [12, -3]) == "hidden"
    assert pen_of("CENTER", []) == "centre"


# Layer names as met in drawings of several offices and languages: common practice, no source.
LAYERS = {
    "centre": [
        "CENTER",
        "centerline",
        "centres",
        "axes",
        "AXIS",
        "3.Center",
        "Centerline (ISO)",
        "3中心线层",
        "Mittellinie",
    ],
    "hidden": ["HIDDEN", "2.Hidden", "4虚线层", "轮廓虚线层", "消隐层", "verdeckte Kanten", "E-HIDDEN"],
    "dimension": [
        "DIMENSIONS",
        "DIM",
        "dim",
        "Dimension (ISO)",
        "8.Dimension line",
        "标注",
        "7标注层",
        "Bemaßung",
        "koty",
        "KÓTY",
    ],
    "hatch": ["HATCH", "hatch_border", "7.Hatch", "5剖面线层", "Schraffur"],
    "border": ["BORDER", "frame", "Title Block", "Blattrahmen", "Zeichnungsrahmen", "Plankopf Rahmen"],
    "construction": ["CONSTRUCTION", "Konstruktion", "HILFSLINIEN", "AUX", "constr_lines", "costruzione"],
    "": ["0", "OUTLINE", "Visible (ISO)", "1.Outline", "Body", "bolt", "1轮廓实线层", "Profil kontura", "101", "GEOM"],
}


@pytest.mark.parametrize(("name", "role"), [(n, role) for role, names in LAYERS.items() for n in names])
def test_roles_of_layers(name, role):
    assert role_of_layer(name) == role


def test_the_role_stands_beside_the_pen_and_does_not_replace_it():
    doc = blank()
    doc.modelspace().add_line((0, 0), (1, 0), dxfattribs={"layer": "CENTER"})
    source = read_back(doc).segments.sources[0]
    assert (source.pen, source.role) == ("solid", "centre")
