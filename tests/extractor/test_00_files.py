"""What is no drawing is refused in one sentence that says why; what is one is read, whatever its version and form."""

import hashlib

import pytest
from support.sheets import blank, bytes_of, codes, entities, line_tags, loaded, tags

from extractor.dxf import load_sheet
from extractor.errors import DrawingError
from extractor.opening.fileform import fault_of, mended

SQUARE = line_tags(0, 0, 10, 0) + line_tags(10, 0, 10, 10)
VERSIONS = ("R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018")

FOREIGN = [
    ("empty", b"", "is empty"),
    ("blanks", b" \r\n \n", "is empty"),
    ("zero bytes", b"\0" * 64, "is empty"),
    ("dwg", b"AC1032\0\0\0\0\0\x03", "DWG renamed"),
    ("pdf", b"%PDF-1.7\n", "PDF"),
    ("zip", b"PK\x03\x04....", "ZIP"),
    ("step", b"ISO-10303-21;\nHEADER;", "STEP model"),
    ("web page", b"<!DOCTYPE html><html>", "web page"),
    ("utf-16", "  0\nSECTION\n".encode("utf-16"), "UTF-16"),
    ("fragment", tags(*line_tags(0, 0, 1, 1)), "fragment"),
    ("prose", b"Dear sir, please find the drawing attached.", "no SECTION"),
    ("half a picture", b"\xff\xd8\xff\xe0JFIF", "picture"),
]


@pytest.mark.parametrize(("data", "words"), [row[1:] for row in FOREIGN], ids=[row[0] for row in FOREIGN])
def test_what_is_no_drawing_is_refused_with_its_reason(data, words):
    with pytest.raises(DrawingError, match=words) as refusal:
        loaded(data)
    assert str(refusal.value).startswith("sheet.dxf ")
    assert "\n" not in str(refusal.value)


def test_a_missing_file_names_the_file_and_not_the_folder(tmp_path):
    with pytest.raises(DrawingError, match=r"^gone\.dxf can't be opened: no such file"):
        load_sheet(tmp_path / "gone.dxf")


def test_a_folder_is_no_drawing(tmp_path):
    with pytest.raises(DrawingError, match="is a folder, a pipe or a device"):
        load_sheet(tmp_path)


def test_merge_conflict_markers_are_named_with_their_line():
    data = entities(*SQUARE).replace(b"LINE\n", b"LINE\n<<<<<<< ours\n  8\n=======\n  8\n>>>>>>> theirs\n", 1)
    with pytest.raises(DrawingError, match="merge-conflict markers, the first in line 7"):
        loaded(data)


def test_a_decimal_comma_is_refused_because_mending_would_change_numbers():
    data = entities(*SQUARE).replace(b" 10\n0\n", b" 10\n0,5\n", 1)
    with pytest.raises(DrawingError, match="decimal commas, the first in line 10"):
        loaded(data)


def test_a_comma_in_a_text_is_no_decimal_comma():
    note = ((0, "TEXT"), (8, "0"), (10, 0.0), (20, 0.0), (40, 2.5), (1, "10,5"), (7, "12"))
    assert loaded(entities(*SQUARE, *note)).texts[0].text == "10,5"


def test_a_file_cut_short_is_refused_with_the_line():
    data = entities(*SQUARE)
    with pytest.raises(DrawingError, match="breaks off in line"):
        loaded(data[: len(data) // 2])


def test_a_missing_end_mark_is_mended_with_a_caution():
    data = entities(*SQUARE).replace(b"  0\nEOF\n", b"")
    sheet = loaded(data)
    assert len(sheet.segments) == 2
    assert [(f.code, f.level) for f in sheet.findings] == [("file-repaired", "caution")]
    assert "EOF" in sheet.findings[0].message


def test_empty_lines_before_the_start_are_mended():
    assert mended(b"\n\n" + entities(*SQUARE))[1] == "empty lines stood before the start"
    assert len(loaded(b"\n\n" + entities(*SQUARE)).segments) == 2


@pytest.mark.parametrize("prefix", [b"\xef\xbb\xbf", b""])
@pytest.mark.parametrize("newline", [b"\n", b"\r\n", b"\r"])
def test_line_ends_and_byte_order_marks_do_not_matter(prefix, newline):
    sheet = loaded(prefix + entities(*SQUARE).replace(b"\n", newline))
    assert sheet.segments.ends.tolist() == [[0, 0, 10, 0], [10, 0, 10, 10]]


@pytest.mark.parametrize("binary", [False, True], ids=["text", "binary"])
@pytest.mark.parametrize("version", VERSIONS)
def test_every_version_in_both_forms_reads_the_same(version, binary):
    doc = blank(version, units=None)
    doc.modelspace().add_line((1, 2), (3.25, 4), dxfattribs={"linetype": "CENTER"})
    doc.modelspace().add_arc((5, 5), 2, 0, 90)
    sheet = loaded(bytes_of(doc, binary=binary))
    assert sheet.segments.ends[0].tolist() == [1, 2, 3.25, 4]
    assert sheet.segments.sources[0].pen == "centre"
    assert sheet.findings == ()


@pytest.mark.parametrize("version", ["AC1006", "AC1009", "AC1032", "AC9999", "nonsense"])
def test_old_new_and_unknown_version_marks_are_read(version):
    header = ((0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, version), (0, "ENDSEC"))
    assert len(loaded(tags(*header) + entities(*SQUARE)).segments) == 2


@pytest.mark.parametrize("value", [0, 1, 4, 6, 13])
def test_header_units_are_handed_on_as_they_are(value):
    sheet = loaded(bytes_of(blank(units=value)))
    assert (sheet.insunits, sheet.measurement) == (value, 1)


def test_a_file_without_a_header_says_nothing_of_units():
    sheet = loaded(entities(*SQUARE))
    assert (sheet.insunits, sheet.measurement) == (None, None)


def test_the_hash_is_that_of_the_bytes_and_the_name_is_bare():
    data = entities(*SQUARE)
    sheet = loaded(data, "a) G00 X0 (.dxf")
    assert sheet.sha256 == hashlib.sha256(data).hexdigest()
    assert sheet.file == "a) G00 X0 (.dxf"


def test_numbers_that_recovery_had_to_guess_are_a_stop():
    data = entities(*SQUARE).replace(b" 21\n10\n", b" 21\n1O.5\n", 1)
    sheet = loaded(data)
    assert [f.level for f in sheet.findings if f.code == "numbers-repaired"] == ["stop"]


@pytest.mark.parametrize("name", [b"", b"Model", b"Elsewhere"])
def test_a_layout_of_another_name_than_the_table_says(name):
    doc = blank()
    doc.modelspace().add_line((0, 0), (10, 0))
    data = bytes_of(doc)
    sheet = loaded(data.replace(b"AcDbLayout\n  1\nLayout1\n", b"AcDbLayout\n  1\n" + name + b"\n", 1))
    assert data.count(b"AcDbLayout\n  1\nLayout1\n") == 1
    assert len(sheet.segments.ends) == 1


def test_bytes_of_no_encoding_become_printable_text():
    note = ((0, "TEXT"), (8, "sch\udcf6n"), (10, 0.0), (20, 0.0), (40, 2.5), (1, "45\udcb0"))
    (text,) = loaded(entities(*SQUARE, *note)).texts
    assert (text.text, text.layer) == ("45°", "schön")


@pytest.mark.parametrize(
    ("codepage", "raw", "expected"),
    [
        ("ANSI_1252", "Ø36".encode("cp1252"), "Ø36"),
        ("ANSI_1250", "wałek".encode("cp1250"), "wałek"),
        ("ANSI_1251", "вал".encode("cp1251"), "вал"),
        ("ANSI_936", "轴".encode("gbk"), "轴"),
        ("ANSI_932", "軸".encode("shift_jis"), "軸"),
        ("no such page", b"plain", "plain"),
        ("ANSI_1252", "Ø36 — 单位".encode(), "Ø36 - 单位"),
    ],
)
def test_code_pages(codepage, raw, expected):
    head = ((0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009"), (9, "$DWGCODEPAGE"), (3, codepage))
    body = entities(*SQUARE, (0, "TEXT"), (8, "0"), (10, 0.0), (20, 0.0), (40, 2.5), (1, "@@"))
    sheet = loaded(tags(*head, (0, "ENDSEC")) + body.replace(b"@@", raw))
    assert sheet.texts[0].text == expected


def test_a_file_too_large_to_hold_is_refused_unread(tmp_path, monkeypatch):
    path = tmp_path / "large.dxf"
    path.write_bytes(b"x" * 100)
    monkeypatch.setattr("extractor.dxf.LARGEST", 50)
    with pytest.raises(DrawingError, match="save the turned part alone"):
        load_sheet(path)


def test_a_sound_file_has_no_fault():
    assert fault_of(entities(*SQUARE)) == ""
    assert codes(loaded(entities(*SQUARE))) == set()
