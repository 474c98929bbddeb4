"""The material that a sheet names: notes behind a word for it, and cells of title blocks, in its own words.

Layouts of title blocks: ISO 7200 has the label small at the top left of its cell (from memory); lists have it at the
left. Which words mean the material is a fact of the trade, no source.
"""

import pytest
from support.sheets import drawn

from extractor.sizing.sentences.material_notes import lines_of, material_notes


def read(*texts):
    """What is named by texts given as (text, x, y), each 2.5 high unless a fourth figure says otherwise."""

    def draw(msp):
        for text, x, y, *height in texts:
            msp.add_text(text, height=height[0] if height else 2.5).set_placement((x, y))

    return [note.text for note in material_notes(drawn(draw))]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        *(
            ("MATERIAL: C45", "C45"),
            ("Material C45", "C45"),
            ("Werkstoff 1.4571", "1.4571"),
            ("Werkstoff: 1.4571", "1.4571"),
        ),
        *(("WERKSTOFF-NR.: 1.4301", "1.4301"), ("W.-Nr. 1.4571", "1.4571"), ("MAT'L: AISI 4140", "AISI 4140")),
        *(
            ("MATL. 6061-T6", "6061-T6"),
            ("Werkstoff / Material: 42CrMo4 +QT", "42CrMo4 +QT"),
            ("Materiale: C45", "C45"),
        ),
        *(
            ("3. MATERIAL: CuZn39Pb3", "CuZn39Pb3"),
            ("Matière : X5CrNi18-10", "X5CrNi18-10"),
            ("MATERIAL = brass", "brass"),
        ),
        *(("Material: 304", "304"), ("Werkstoff: Al99,5", "Al99,5"), ("RAW MATERIAL: EN AW-6082 T6", "EN AW-6082 T6")),
    ],
)
def test_a_note_with_its_word(text, value):
    assert read((text, 0, 0)) == [value]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        *(("材質 SUS304", "SUS304"), ("材料:45", "45"), ("材质：40Cr", "40Cr"), ("Materiál 12 050", "12 050")),
        *(("МАТЕРИАЛ: Сталь 40Х", "Сталь 40Х"), ("Materiał: C45", "C45"), ("Malzeme: CuZn39Pb3", "CuZn39Pb3")),
        *(
            ("MATERIAAL: RVS 304", "RVS 304"),
            ("Materiaali: C45", "C45"),
            ("Materijal: C45", "C45"),
            ("ΥΛΙΚΟ: C45", "C45"),
        ),
        *(("MATERIAL C45 (WAS C35)", "C45"), ("WERKSTOFF: C45, bisher C35", "C45"), ("MATERIAL: C45 EX C35", "C45")),
        ("MATIÈRE: XC48 (ancienne XC38)", "XC48"),
        *((f"MATERIAL: {whole}", whole) for whole in ("C45 CHANGED TO 42CrMo4", "C45, GEÄNDERT IN 42CrMo4 IN REV B")),
        *((f"MATERIAL: {whole}", whole) for whole in ("WAS C45 NOW 42CrMo4", "BISHER C45, NEU 42CrMo4", "EX C45")),
        *((f"MATERIAL: {whole}", whole) for whole in ("C45 PREVIOUSLY HARDENED 58 HRC", "C45 WAS 58HRC")),
        *((f"MATERIAL: {whole}", whole) for whole in ("CHANGED TO 42CrMo4", "MODIFIED PTFE", "C45 WAS C35, NOW C60")),
    ],
)
def test_its_word_in_more_languages(text, value):
    assert read((text, 0, 0)) == [value]


def alone(*texts):
    """The lines that may be names by themselves, of texts given as (text, x, y, height)."""

    def draw(msp):
        for text, x, y, height in texts:
            msp.add_text(text, height=height).set_placement((x, y))

    return {note.text for note in lines_of(drawn(draw))}


def test_lines_may_be_names_by_themselves():
    """Eighty letters at most, with two letters, a letter and two digits, or the number of a steel in them."""
    texts = ("Ti-6Al-4V", "C45", "1.4571", "POM", "C4", "4140", "1.457", 80 * "X", 81 * "X", "POM")
    found = alone(*((text, 0, 40 * k, 2.5) for k, text in enumerate(texts)))
    assert found == {"Ti-6Al-4V", "C45", "1.4571", "POM", 80 * "X"}


@pytest.mark.parametrize(("count", "none"), [(500, False), (501, True)])
def test_of_more_lines_than_a_sheet_has_none_is_a_name(count, none):
    assert (alone(*((f"NOTE {k}", 0, 9 * k, 2.5) for k in range(count))) == set()) is none


@pytest.mark.parametrize(
    ("label", "height", "x", "y", "own"),
    [
        # Under a label in smaller letters, or with a colon; beside it.
        *(("COATING", 1.8, 0, 6, False), ("COATING:", 2.5, 0, 6, False), ("COATING:", 2.5, -30, 0, False)),
        # Letters as high say nothing of the text under them, nor does what stands far off, or below.
        *(("SHAFT", 2.5, 0, 6, True), ("COATING", 1.8, 0, 14, True), ("COATING:", 2.5, -140, 0, True)),
        *(("COATING", 1.8, 0, -6, True), ("1:1", 1.8, 0, 6, True)),
    ],
)
def test_a_value_of_another_label_is_none_by_itself(label, height, x, y, own):
    assert ("PTFE" in alone((label, x, y, height), ("PTFE", 0, 0, 2.5))) is own


def test_a_name_without_a_colon_has_four_words_at_most():
    assert read(("MATERIAL ONE TWO THREE FOUR", 0, 0)) == ["ONE TWO THREE FOUR"]
    assert read(("MATERIAL ONE TWO THREE FOUR FIVE", 0, 0)) == []


@pytest.mark.parametrize(
    "text",
    [
        *(
            "REMOVE ALL MATERIAL BEHIND SHOULDER",
            "MATERIAL TO BE FREE OF CRACKS",
            "MATERIAL CERTIFICATE 3.1",
            "MATERIAL: -",
        ),
        *("MATERIAL WAS C35", "MATERIAL: WAS C35", "Werkstoff war C35", "Werkstoff bisher C35", "MATERIALE ERA C35"),
        *("Matière ancienne: C35", "MATERIAL CHANGED FROM C35"),
        *(
            "MATERIAL CONDITION: SOFT",
            "Material no. 100234567",
            "MATERIAL SEE LIST",
            "Material: see BOM",
            "Werkstoffzeugnis 3.1",
        ),
        *("MATERIAL: FREE ISSUE", "Material: by customer", "WERKSTOFF: nach Liste", "MATERIAL: AS REQUIRED"),
        *("MATERIAL:", "WERKSTOFF", "MATERIAL SHALL BE C45", "Material: 1:1", "MATERIAL: 12.05.2031", "MAT 45", "C45"),
    ],
)
def test_what_names_none(text):
    assert read((text, 0, 0)) == []


class TestCells:
    def test_the_value_below_its_label(self):
        row = [
            ("SCALE", 40, 10, 1.8),
            ("1:1", 41, 5),
            ("MATERIAL", 0, 10, 1.8),
            ("16MnCr5", 1, 5, 3.5),
            ("DATE", 80, 10, 1.8),
        ]
        assert read(*row) == ["16MnCr5"]

    def test_the_value_at_the_right_of_its_label(self):
        assert read(("Werkstoff", 0, 10), ("1.4571", 30, 10), ("Gewicht", 0, 5), ("0,4 kg", 30, 5)) == ["1.4571"]

    def test_a_column_of_labels_beside_one_of_values(self):
        rows = (
            ("TITLE", "SPINDLE"),
            ("MATERIAL", "C45 STEEL"),
            ("FINISH", "BLACK"),
            ("DIMENSIONS IN MILLIMETRES", "1:1"),
        )
        texts = [(label, 0, -6 * k, 1.8) for k, (label, _) in enumerate(rows)]
        assert read(*texts, *((value, 50, -6 * k, 2.5) for k, (_, value) in enumerate(rows))) == ["C45 STEEL"]
        assert read(*texts, *((value, 50, -6 * k, 1.8) for k, (_, value) in enumerate(rows))) == ["C45 STEEL"]
        assert read(*texts) == []

    def test_an_empty_cell_takes_nothing_from_its_neighbours(self):
        assert read(("MATERIAL", 0, 10), ("SCALE", 25, 10), ("WEIGHT", 0, 5), ("DATE", 0, 0)) == []
        assert read(("MATERIAL", 0, 10), ("-", 1, 5), ("SHAFT", 1, 0)) == []

    def test_a_turned_title_block(self):
        def draw(msp):
            for text, x, y in (("MATERIAL", 10, 0), ("C45", 15, 1), ("SCALE", 10, 40)):
                msp.add_text(text, height=2.5, rotation=90).set_placement((x, y))

        assert [note.text for note in material_notes(drawn(draw))] == ["C45"]

    @pytest.mark.parametrize(
        ("inside", "outside"),
        [
            # Heights are 1, so that lengths are heights; the label of 9 letters ends at 6.3.
            ((36.29, 0), (36.31, 0)),
            ((0, -4.49), (0, -4.51)),
            ((5.99, -2), (6.01, -2)),
            ((9, -0.69), (9, -0.71)),
        ],
    )
    def test_how_far_away(self, inside, outside):
        assert read(("WERKSTOFF", 0, 0, 1), ("C45", *inside, 1)) == ["C45"]
        assert read(("WERKSTOFF", 0, 0, 1), ("C45", *outside, 1)) == []


def test_lines_of_one_text_and_the_same_note_twice():
    def draw(msp):
        msp.add_mtext("DEBURR\\PMATERIAL:\\PC45\\PTOL. ISO 2768-m", dxfattribs={"char_height": 2.5})
        msp.add_text("Werkstoff: C 45", height=2.5).set_placement((0, 40))

    assert [note.text for note in material_notes(drawn(draw))] == ["C45"]


@pytest.mark.parametrize(
    ("below", "named"),
    [
        *(((0.0, 2.31), "below"), ((0.0, 2.29), "right")),
        *(((1.17, 2.0), "below"), ((0.99, 2.0), "right")),
    ],
)
def test_which_of_two_counts(below, named):
    aside, height = below
    texts = ("MATERIAL", 0, 0, 2.0), ("C45", 30, 0, 2.0), ("C60", aside, -5, height)
    assert read(*texts) == [{"right": "C45", "below": "C60"}[named]]


@pytest.mark.parametrize(
    ("words", "value"),
    [
        *(
            (words, None)
            for words in ("Ø45 x 95", "Rd 45 x 95", "BAR Ø45", "45 x 95 mm", "60 x 40 x 5", "barre Ø45 h9")
        ),
        *((words, words) for words in ("C45", "45", "C45 Ø45 x 95", "Ø45 x 95 C45", "St 37", "316 L", "TUBE 45 x 5")),
    ],
)
def test_the_size_of_a_bar_is_no_material(words, value):
    """45 alone is a steel of GB; what has both is left to a person."""
    assert read((f"RAW MATERIAL: {words}", 0, 0)) == [value] * bool(value)
    assert read(("MATERIAL", 0, 0), ("C45", 40, 0), ("RAW MATERIAL", 0, 9), (words, 40, 9)) == list(
        dict.fromkeys(["C45", *([value] if value else [])])
    )
