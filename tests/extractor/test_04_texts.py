"""Texts come out as they print: escapes, markup, stacked fractions and signs resolved."""

import unicodedata
from dataclasses import replace

import pytest
from ezdxf.enums import TextEntityAlignment
from support.sheets import blank, drawn, read_back

from extractor.opening.stacked import with_deviations
from extractor.opening.texts import clean, plain_line, plain_paragraphs
from extractor.sheet import Text
from extractor.sizing.lettering.printed import parse

# Control codes %%c, %%d, %%p and \U+XXXX: DXF reference, group codes of TEXT and MTEXT.
LINES = [
    ("%%c36", "Ø36"),
    ("%%C36 %%p0.1", "Ø36 ±0.1"),
    ("45%%d", "45°"),
    (r"\U+00F836", "Ø36"),
    (r"\U+220536", "Ø36"),
    ("⌀36", "Ø36"),
    ("φ36", "Ø36"),
    ("%%uUNDERLINED%%u", "UNDERLINED"),
    ("100%", "100%"),
]


@pytest.mark.parametrize(("raw", "plain"), LINES)
def test_one_line_texts(raw, plain):
    assert plain_line(raw) == plain


@pytest.mark.parametrize("words", ["Ø100", "Ø40 ±0.1", "45°", "⌀36", "Maße in mm, Ø20", "1. Rugosità Ra 3,2"])
@pytest.mark.parametrize("read", [plain_line, plain_paragraphs])
def test_a_text_in_utf_8_within_a_file_of_another_encoding_is_read_as_it_was_written(words, read):
    mangled = words.encode().decode("cp1252")
    assert mangled != words
    assert read(mangled) == words.replace("⌀", "Ø")


@pytest.mark.parametrize("words", ["Ø±0.1", "GROẞ", "Château", "Â", "São", "Ãngulo 45°", "ÂME Ø12", "100 â 200"])
@pytest.mark.parametrize("read", [plain_line, plain_paragraphs])
def test_a_text_that_is_whole_stays(words, read):
    assert read(words) == words


BLANKS = [chr(code) for code in range(0x3001) if unicodedata.category(chr(code)) == "Zs"]
NAMES = ("HYPHEN", "NON-BREAKING HYPHEN", "FIGURE DASH", "EN DASH", "EM DASH", "MINUS SIGN", "SMALL HYPHEN-MINUS")
DASHES = [*map(unicodedata.lookup, NAMES), "\uff0d"]


@pytest.mark.parametrize("read", [plain_line, plain_paragraphs])
@pytest.mark.parametrize("blank", BLANKS, ids=ascii)
def test_every_blank_of_unicode_parts_figures(blank, read):
    # A minus, a plus or a nought that runs into the size before it makes another size.
    assert parse(read(f"Ø32{blank}0/-0.1")).deviations == (-0.1, 0.0)


@pytest.mark.parametrize("read", [plain_line, plain_paragraphs])
@pytest.mark.parametrize("dash", DASHES, ids=ascii)
def test_every_dash_of_unicode_is_a_minus_before_a_deviation(dash, read):
    assert parse(read(f"Ø32 {dash}0.1/{dash}0.2")).deviations == (-0.2, -0.1)


@pytest.mark.parametrize("read", [plain_line, plain_paragraphs])
@pytest.mark.parametrize("words", ["2xØ34 +0.1/-0.2", "R0.4", "(3 h11)", "ALL GROOVES 3 WIDE; 45 DEG", "A-A [1:2]"])
def test_wide_forms_are_read_as_what_they_are_forms_of(words, read):
    # The oracle is Unicode's own table of compatible letters.
    wide = "".join(chr(ord(c) + 0xFEE0) if "!" <= c <= "~" else c for c in words)
    assert wide != words
    assert unicodedata.normalize("NFKC", wide) == words
    assert read(wide) == words


@pytest.mark.parametrize(
    ("raw", "told"),
    [
        ("2\u04453", "2x3"), ("2 \u0425 \u042432", "2 x Ø32"), ("2\u0445", "2\u0445"), ("\u04453", "\u04453"),
        ("1½", "1 1/2"), ("3\u20448", "3/8"), ("3 \u2715 2", "3 × 2"), ("3 \u22130.1", "3 ±0.1"), ("\u03d532", "Ø32"),
        ("2\u0445R3", "2xR3"), ("\u0445\u043e\u043b\u043e\u0434", "\u0445\u043e\u043b\u043e\u0434"),
    ],
    ids=ascii,
)  # fmt: skip
def test_signs_that_mean_the_same_are_one(raw, told):
    assert plain_line(raw) == told.strip()


@pytest.mark.parametrize("text", ["2 \u043c\u0435\u0441\u0442\u0430 3 +0.1", "2\u04453 +0.1"], ids=ascii)
def test_a_count_from_a_russian_keyboard(text):
    printed = parse(plain_line(text))
    assert (printed.count, printed.size, printed.deviations) == (2, 3.0, (0.0, 0.1))


PARAGRAPHS = [
    (r"%%c36", "Ø36"),
    (r"40\~h11", "40 h11"),
    (r"{\fArial|b0|i0|c0|p34;\H2.5;40} h11", "40 h11"),
    (r"\A1;40{\H0.7x;\S+0.1^-0.2;}", "40 +0.1^-0.2"),
    (r"\A1;3{\H0.7x;\S+0.1^ 0;}", "3 +0.1^0"),
    (r"1\S1/2;", "1 1/2"),
    (r"1\S1#2;", "1 1/2"),
    (r"first\Psecond", "first\nsecond"),
    (r"\C1;red\C256; and \Lunder\l", "red and under"),
    (r"brace \{40\}", "brace {40}"),
    (r"back\\slash", "back\\slash"),
    (r"1.500\X[38.1]", "1.500 [38.1]"),
    (r"\pxqc;centred", "centred"),
]


@pytest.mark.parametrize(("raw", "plain"), PARAGRAPHS)
def test_paragraph_markup(raw, plain):
    assert plain_paragraphs(raw) == plain


@pytest.mark.parametrize("raw", ["\\", "{{{", r"\S", r"\S1", r"\U+", r"\U+D800", "%%", "\\f", "\x00\x01", "^", "^J^I"])
def test_broken_markup_never_fails(raw):
    for read in (plain_line, plain_paragraphs):
        assert read(raw * 3).encode("utf-8") is not None


def test_a_text_of_any_length_is_cut_short():
    assert len(clean("x" * 1_000_000)) == 4000


def test_place_height_and_layer_of_a_text():
    sheet = drawn(lambda m: m.add_text("A", height=3.5, dxfattribs={"layer": "NOTES"}).set_placement((4, 5)))
    (text,) = sheet.texts
    assert (text.text, text.at, text.height, text.layer) == ("A", (4.0, 5.0), 3.5, "NOTES")


def test_a_justified_text_hangs_on_its_second_point():
    """Ten letters of height 2, about 14 wide."""
    places = {}
    for align in ("LEFT", "CENTER", "RIGHT", "MIDDLE", "MIDDLE_RIGHT", "TOP_CENTER"):
        words = "ABCDEFGHIJ"
        sheet = drawn(lambda m: m.add_text(words, height=2).set_placement((50, 5), align=TextEntityAlignment[align]))  # noqa: B023
        places[align] = sheet.texts[0].at[0]
    expected = {"LEFT": 50, "CENTER": 43, "RIGHT": 36, "MIDDLE": 43, "MIDDLE_RIGHT": 36, "TOP_CENTER": 43}
    assert places == pytest.approx(expected)


@pytest.mark.parametrize(("attachment", "x"), [(1, 50), (5, 43), (9, 36)])
def test_a_paragraph_hangs_on_its_attachment_point(attachment, x):
    attributes = {"insert": (50, 5), "char_height": 2, "attachment_point": attachment}
    (text,) = drawn(lambda m: m.add_mtext("ABCDEFGHIJ", dxfattribs=attributes)).texts
    assert text.at[0] == pytest.approx(x)


@pytest.mark.parametrize(
    ("attachment", "lines", "y"),
    [(1, 1, 3.0), (4, 1, 4.0), (7, 1, 5.0), (1, 3, 3.0), (5, 3, 7 + 1 / 3), (9, 3, 11 + 2 / 3)],
)
def test_the_foot_of_the_first_line_of_a_paragraph(attachment, lines, y):
    """Letters 2 high, lines 10/3 apart: three are 2 + 20/3 high, and hang by their top, middle or foot at 5."""
    attributes = {"insert": (50, 5), "char_height": 2, "attachment_point": attachment}
    (text,) = drawn(lambda m: m.add_mtext("\\P".join("ABC"[:lines]), dxfattribs=attributes)).texts
    assert text.at[1] == pytest.approx(y)


@pytest.mark.parametrize(
    ("align", "y"),
    [("LEFT", 5), ("BOTTOM_LEFT", 5), ("MIDDLE_LEFT", 4), ("TOP_RIGHT", 3), ("MIDDLE", 4), ("ALIGNED", 5)],
)
def test_the_foot_of_a_justified_text(align, y):
    def draw(m):
        m.add_text("ABC", height=2).set_placement((50, 5), (60, 5), align=TextEntityAlignment[align])

    assert drawn(draw).texts[0].at[1] == pytest.approx(y)


def test_a_turned_text_begins_where_it_is_turned_to():
    attributes = {"insert": (50, 5), "char_height": 2, "attachment_point": 2, "rotation": 90}
    (text,) = drawn(lambda m: m.add_mtext("ABCDEFGHIJ", dxfattribs=attributes)).texts
    assert text.at == (pytest.approx(52), pytest.approx(-2))


def test_texts_in_a_block_grow_and_move_with_it():
    doc = blank()
    doc.blocks.new("B").add_mtext("A", dxfattribs={"insert": (1, 1), "char_height": 2})
    doc.modelspace().add_blockref("B", (10, 0), dxfattribs={"xscale": 3, "yscale": 3, "zscale": 3})
    (text,) = read_back(doc).texts
    assert (text.at, text.height) == ((13.0, -3.0), pytest.approx(6.0))


def test_hidden_texts_and_attribute_definitions_say_nothing():
    def draw(m):
        m.add_text("hidden", dxfattribs={"invisible": 1})
        m.add_attdef("TAG", (0, 0), "definition")

    assert drawn(draw).texts == ()


def test_an_empty_text_is_kept_empty():
    assert [t.text for t in drawn(lambda m: m.add_text("")).texts] in ([], [""])


def loose(*texts):
    """The texts left of some: words, place, height."""
    return [t.text for t in with_deviations([Text(words, at, height) for words, at, height in texts])[0]]


@pytest.mark.parametrize(
    ("markup", "plain"),
    [
        (r"3 \S+0,1^0", "3 +0,1^0"),
        (r"3 {\H.5x;\S+0,1^0}", "3 +0,1^0"),
        (r"3 {\H.5x;\S+0,1^0;} H13", "3 +0,1^0 H13"),
        (r"+0.1\P3\P0", "3 +0.1^0"),
        (r"0\P%%c34\P-0,1", "Ø34 0^-0,1"),
        (r"+0.1\P3 H13\P0", "+0.1\n3 H13\n0"),
        (r"12\P3\P0", "12\n3\n0"),
    ],
)
def test_deviations_over_and_under_a_size_are_its_own_however_they_are_stacked(markup, plain):
    """A stack without its closing semicolon is still drawn as one (common practice, no source)."""
    assert plain_paragraphs(markup) == plain


@pytest.mark.parametrize(("other", "first"), [(3.65, False), (-3.65, False), (1.0, False), (-1.0, False), (0.5, True)])
def test_deviations_are_those_of_the_size_that_both_stand_nearest_to(other, first):
    """Two sizes one above the other, the stack amid the first but where the other stands as level and farther on."""
    sizes = [("Ø20.8", (0.0, 0.0), 3.5), ("Ø22", (0.6 if first else 0.0, other), 3.5)]
    found = loose(*sizes, ("0", (12.3, 1.75), 1.75), ("-0.21", (12.3, -0.9), 1.75))
    assert found == (["Ø20.8", "Ø22 0^-0.21"] if first else ["Ø20.8 0^-0.21", "Ø22"])


UPPER, LOWER = ("+0.1", (4.5, 1.2), 1.8), ("0", (4.5, -1.0), 1.8)
SIZE = ("2", (0.0, 0.0), 3.0)


def test_deviations_that_lie_loose_behind_a_number_are_its_own():
    """As they lie when a dimension with a tolerance is taken to pieces."""
    assert loose(SIZE, UPPER, LOWER) == ["2 +0.1^0"]
    assert loose(LOWER, UPPER, SIZE, ("NOTE", (4.5, 3.0), 3.0)) == ["2 +0.1^0", "NOTE"]
    assert loose(SIZE, ("%%p0.1", (4.5, 0.0), 3.0)) == ["2 %%p0.1"]
    assert loose(SIZE, ("H13", (4.5, 0.0), 3.0), ("M8", (4.5, -3.0), 3.0)) == ["2 H13", "M8"]
    assert loose(SIZE, ("P9", (4.5, 0.0), 3.0)) == ["2 P9"]
    assert loose(
        ("2 H13", (0.0, 0.0), 3.0), *((words, (at[0] + 8, at[1]), 1.8) for words, at, _ in (UPPER, LOWER))
    ) == ["2 H13 +0.1^0"]


@pytest.mark.parametrize(
    "texts",
    [
        (SIZE, ("0.1", UPPER[1], 1.8), ("0.2", LOWER[1], 1.8)),
        (("A", SIZE[1], 3.0), UPPER, LOWER),
        (SIZE, ("+0.1", (4.5, 1.2), 3.1), ("0", (4.5, -1.0), 3.1)),
    ],
    ids=["no sign", "no number", "larger than the number"],
)
def test_other_figures_stay_where_they_are(texts):
    assert len(loose(*texts)) == 3


@pytest.mark.parametrize(
    ("words", "place", "taken"),
    [
        ("2", (1.27, 1.2, -1.0), True),
        ("2", (1.25, 1.2, -1.0), False),
        ("2", (8.27, 1.2, -1.0), True),
        ("2", (8.29, 1.2, -1.0), False),
        ("12.5", (5.05, 1.2, -1.0), True),
        ("12.5", (5.03, 1.2, -1.0), False),
        ("12.5", (19.61, 1.2, -1.0), True),
        ("12.5", (19.63, 1.2, -1.0), False),
        ("2", (4.5, 3.59, 1.6), True),
        ("2", (4.5, 3.61, 1.6), False),
    ],
)
def test_how_far_off_deviations_may_stand(words, place, taken):
    """Of a number 3 high, whose letters count as 2.1 each: from 0.6 of its length to 1.8 and 4.5 more, 3.6 over it."""
    x, up, low = place
    texts = (words, SIZE[1], 3.0), ("+0.1", (x, up), 1.8), ("0", (x, low), 1.8)
    assert (loose(*texts) == [f"{words} +0.1^0"]) is taken


def test_deviations_stand_as_their_number_does():
    """Turned by a quarter, a class beside one deviation, and one deviation between two numbers' places."""
    turned = [Text(words, (-y, x), height, angle=90.0) for words, (x, y), height in (SIZE, UPPER, LOWER)]
    assert [t.text for t in with_deviations(turned)[0]] == ["2 +0.1^0"]
    for k in range(3):
        odd = [replace(t, angle=0.0) if i == k else t for i, t in enumerate(turned)]
        assert "2 +0.1^0" not in [t.text for t in with_deviations(odd)[0]]
    assert loose(SIZE, ("H13", (4.5, 1.2), 1.8), ("+0.1", (4.5, -1.0), 1.8)) == ["2 H13", "+0.1"]


@pytest.mark.parametrize(
    ("upper", "lower", "height", "taken"),
    [
        ("0.1", "0", 1.8, True),
        ("0", "0,1", 1.8, True),
        (".004", "0", 1.8, True),
        ("0.1", "0", 2.9, True),
        ("0.1", "0", 3.0, False),
        ("0.1", "A", 1.8, False),
        ("1.1", "0", 1.8, False),
    ],
)
def test_a_small_fraction_over_a_nought_is_of_the_number_before_it(upper, lower, height, taken):
    """The number is 3 high; what the two allow is for a person to say."""
    texts = SIZE, (upper, (4.5, 2.0), height), (lower, (4.5, -0.8), height)
    assert loose(*texts) == ([f"2 {upper}^{lower}"] if taken else ["2", upper, lower])
    assert loose(SIZE, texts[1]) == ["2", upper]
    assert [parse(words).unread for words in ("2 0.1^0", "2 0^0,1")] == [True, True]


@pytest.mark.parametrize("first", [1, -1])
def test_of_two_numbers_deviations_are_of_the_nearer(first):
    numbers = [("30", (0.0, 0.0), 3.5), ("28", (0.0, -4.0), 3.5)][::first]
    assert sorted(loose(*numbers, ("+0.1", (7.0, 0.1), 1.8))) == ["28", "30 +0.1"]
    assert sorted(loose(*numbers, ("+0.1", (7.0, -3.9), 1.8))) == ["28 +0.1", "30"]


@pytest.mark.parametrize(("apart", "aside", "taken"), [(3.95, 0.89, True), (3.97, 0.0, False), (2.0, 0.91, False)])
def test_how_two_deviations_stand_to_one_another(apart, aside, taken):
    """Deviations 1.8 high stand within 2.2 heights of one another, and begin within half a height."""
    texts = SIZE, ("+0.1", (4.5, 2.0), 1.8), ("0", (4.5 + aside, 2.0 - apart), 1.8)
    assert (loose(*texts) == ["2 +0.1^0"]) is taken


@pytest.mark.parametrize(
    ("raw", "plain"),
    [
        (r"{\Fgdt.shx;n}34", "Ø34"),
        (r"{\fAMGDT|b0|i0;n34}", "Ø34"),
        (r"2x {\FGDT;n}34 n\U+00B04", "2x Ø34 n°4"),
        (r"{\Ftxt.shx;n}34", "n34"),
    ],
)
def test_in_a_font_of_symbols_n_is_the_diameter_sign(raw, plain):
    assert plain_paragraphs(raw) == plain


def test_the_sign_of_a_depth_says_deep():
    assert plain_line("2X 3 +0.1/0 \u21a7 4") == "2X 3 +0.1/0  DEEP  4"
    assert plain_line("4 \u25bc2.5") == "4 DEEP 2.5"
    assert [plain_line(one) for one in ("\u25bc 4", "4 \u25bc\u25bc 2", "4 \u25bc")] == [
        "\u25bc 4",
        "4 \u25bc\u25bc 2",
        "4 \u25bc",
    ]
