"""The page as text: whole, escaped, asking for nothing, and the same elements whatever names a drawing has."""

import hashlib
import re
from base64 import b64encode
from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.forms import typed
from support.parts import part_of, row
from support.records import made, refused

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from planner.codes import PlanCode
from rillwright.jobsheet.cautions import FIRST
from rillwright.jobsheet.sheet import css_string, program_state, render_sheet, shown, whole

VOID = {"meta", "link", "br", "input", "hr", "img"}
EVIL = [
    "<script>alert(1)</script>.dxf",
    "a) G00 X0 (.dxf",
    '"><img src=x onerror=alert(1)>.dxf',
    "</style></title><svg onload=alert(1)>.dxf",
    "{{ 7*7 }}{% raw %}.dxf",
    "--><!-- .dxf",
    "&lt;b&gt;&amp;.dxf",
    "\u202egpj.dxf",
    "\x1b[31mred\x7f\x9b.dxf",
]


class Reader(HTMLParser):
    """Elements in order, their attributes, visible text; complains of a tag closed out of turn."""

    def __init__(self):
        super().__init__()
        self.elements, self.open, self.faults, self.text, self.ids = [], [], [], [], []

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, tuple(name for name, _ in attrs)))
        self.ids += [value for name, value in attrs if name == "id"]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.elements.append((tag, tuple(name for name, _ in attrs)))

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append(tag)

    def handle_data(self, data):
        self.text.append(data)


def read(page):
    reader = Reader()
    reader.feed(page)
    reader.close()
    assert not reader.faults
    assert not reader.open
    return reader


@pytest.fixture(scope="module")
def part():
    return part_of([*row(3, first=-10, pitch=5, width=3, floor=34), (-40, -42, 36)])


def sheet(part, file="ring.dxf", findings=()):
    record, text = made(part, [(1, 2, 3), (4,)], file=file, findings=findings)
    return render_sheet(typed(record), text), record, text


def test_elements_nest_and_no_id_is_used_twice(part):
    page = read(sheet(part)[0])
    assert len(page.ids) == len(set(page.ids))
    assert {"part", "program", "operations", "setup", "findings", "verification", "inspection", "cautions"} <= set(
        page.ids
    )


@pytest.mark.parametrize("name", EVIL)
def test_no_name_adds_or_changes_an_element(part, name):
    plain = read(sheet(part)[0])
    evil = read(sheet(part, file=name)[0])
    assert evil.elements == plain.elements
    assert re.sub("[\u202e\x1b\x7f\x9b]", "\ufffd", name) in "".join(evil.text)


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), min_size=1))
def test_no_sentence_of_a_finding_adds_an_element(part, words):
    harmless = read(sheet(part, findings=[Finding(Level.CAUTION, DrawingCode.LEFT_OUT, "harmless")])[0])
    found = read(sheet(part, findings=[Finding(Level.CAUTION, DrawingCode.LEFT_OUT, words)])[0])
    # A figure among the words is held together on its line by a span of its own.
    figure = ("span", ("class",))
    found_ones, harmless_ones = ([e for e in page.elements if e != figure] for page in (found, harmless))
    assert found_ones == harmless_ones


def test_a_program_full_of_markup_is_shown_as_text(part):
    record, text = made(part, [(1, 2, 3), (4,)])
    evil = text.replace("(RING)", "(</code></li><script>alert(1)</script>)")
    record["program"]["sha256"] = hashlib.sha256(evil.encode()).hexdigest()
    page = read(render_sheet(typed(record), evil))
    assert [tag for tag, _ in page.elements].count("script") == 2
    assert "<script>alert(1)</script>" in "".join(page.text)


def test_the_page_asks_for_nothing_from_outside(part):
    page = sheet(part)[0]
    assert not re.search(r'(src|href|action|poster|data)="(?!#)[^"]', page)
    assert "@import" not in page
    assert not re.search(r"url\((?!#)", page)


def test_the_policy_lets_in_just_the_script_that_is_there(part):
    """Source of the form: Content Security Policy Level 2, hash-source."""
    page = sheet(part)[0]
    script = re.findall(r"<script>(.*?)</script>", page, re.S)
    assert len(script) == 1
    digest = b64encode(hashlib.sha256(script[0].encode()).digest()).decode()
    assert f"script-src &#39;sha256-{digest}&#39;" in page
    assert "default-src &#39;none&#39;" in page


def test_every_picture_is_well_formed(part):
    pictures = re.findall(r"<svg xmlns.*?</svg>", sheet(part)[0], re.S)
    assert len(pictures) >= 3
    for picture in pictures:
        ElementTree.fromstring(picture)


def test_an_edited_program_is_listed_with_a_warning_and_without_stepping(part):
    record, text = made(part, [(1, 2, 3), (4,)])
    page = render_sheet(typed(record), text.replace("X34.000", "X31.000"))
    assert program_state(typed(record), text) == "same"
    assert "edited after it was verified" in page
    assert 'id="stepping"' not in page
    assert "X31.000" in page


@pytest.mark.parametrize("change", [None, "X31.000"])
def test_no_green_stands_where_the_verified_program_is_not(part, change):
    record, text = made(part, [(1, 2, 3), (4,)])
    signs = ('class="stamp good"', '<strong class="state-good"', '<td class="state-good"')
    assert all(sign in render_sheet(typed(record), text) for sign in signs)
    page = render_sheet(typed(record), change and text.replace("X34.000", change))
    assert [sign for sign in signs if sign in page] == []
    assert 'class="stamp bad"' in page
    assert "which is not the one that lies here" in page


def test_without_the_program_text_the_rest_of_the_sheet_stands(part):
    record, _ = made(part, [(1, 2, 3), (4,)])
    page = read(render_sheet(typed(record)))
    assert "program" not in page.ids
    assert "inspection" in page.ids


def test_a_record_of_the_contract_alone_still_gives_a_sheet(part):
    record, text = made(part, [(1, 2, 3), (4,)])
    for key in ("made_at", "tool_version", "settings_sha256", "picture", "setup", "path"):
        del record[key]
    for operation in record["plan"]["operations"]:
        for key in ("why", "reference", "insert_width", "feeds", "pecks"):
            del operation[key]
    page = read(render_sheet(typed(record), text))
    assert "part-picture" not in page.ids
    assert {"grooves", "program", "verification"} <= set(page.ids)


def test_a_refusal_shows_why_and_where_and_what_to_do():
    page = render_sheet(typed(refused()))
    read(page)
    assert "The outline is open near (40, 17)." in page
    assert 'class="ring"' in page
    assert "make it again" in page
    assert 'id="program"' not in page


def test_a_refused_part_that_was_recognised_is_shown_with_its_grooves(part):
    page = read(
        render_sheet(
            typed(refused([Finding(Level.STOP, PlanCode.NO_TOOL, "Groove 1 needs one.", groove=1)], part=part))
        )
    )
    assert {"reasons", "part-picture", "grooves"} <= set(page.ids)
    assert "inspection" not in page.ids


def test_the_groove_that_a_stop_speaks_of_is_ringed(part):
    page = render_sheet(
        typed(refused([Finding(Level.STOP, PlanCode.NO_TOOL, "Groove 2 needs one.", groove=2)], part=part))
    )
    assert page.count('class="ring"') == 1
    harmless = render_sheet(
        typed(refused([Finding(Level.STOP, PlanCode.NO_TOOL, "Some groove needs one.")], part=part))
    )
    assert 'class="ring"' not in harmless
    assert "On the drawing" not in harmless


def test_the_least_record_of_a_refusal_gives_a_sheet():
    page = render_sheet(typed({"schema": 1, "status": "refused", "part": {}, "findings": []}))
    assert "No program" in page


def test_built_in_figures_are_called_what_they_are(part):
    record, text = made(part, [(1, 2, 3), (4,)])
    assert "Not your shop" not in render_sheet(typed(record), text)
    record["setup"]["built_in"] = ["material", "tools"]
    assert "Figures of material and tools are built-in examples" in render_sheet(typed(record), text)


def test_the_same_record_gives_the_same_page(part):
    assert sheet(part)[0] == sheet(part)[0]


@given(st.text(max_size=40))
@settings(max_examples=12, deadline=None)
def test_any_name_stays_a_name_at_the_foot_of_the_page(name):
    """Read back as the standard says (CSS Syntax Level 3, 4.3.7): a backslash, hex digits, one blank."""
    text = css_string(name)
    assert "<" not in text[1:-1]
    assert '"' not in text[1:-1]
    back = re.sub(r"\\([0-9a-f]{1,6}) ", lambda found: chr(int(found[1], 16)), text[1:-1])
    assert back == name


def test_a_refused_drawing_has_no_program_to_be_proved_out(part):
    page = render_sheet(typed(refused([Finding(Level.STOP, DrawingCode.NO_TURNED_PART, "No part.")], part=part)))
    assert "If you program it by hand" in page
    assert "Dry run" not in page
    assert FIRST in page.replace("&#39;", "'")


def test_what_to_do_is_said_once_and_every_loose_end_is_ringed():
    words = "The outline at X40 Y17 does not close; join its lines there."
    ends = ((20.0, 17.0), (30.0, 17.0))
    page = render_sheet(
        typed(refused([Finding(Level.STOP, DrawingCode.OUTLINE_OPEN, words, (40.0, 17.0), spots=ends)]))
    )
    assert words in page
    assert DrawingCode.OUTLINE_OPEN.remedy not in page
    drawing, enlarged = page.split("The first place, enlarged")
    assert (drawing.count('class="ring"'), enlarged.count('class="ring"')) == (3, 1)


def test_stops_of_one_code_are_told_together_with_what_to_do_once(part):
    stops = [
        Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, f"Dimension {n} is wrong.", (n, 1.0)) for n in range(20)
    ]
    stops.append(Finding(Level.STOP, DrawingCode.SHEET_SCALE, "No scale."))
    page = render_sheet(typed(refused(stops, part=part)))
    assert page.count(DrawingCode.DIMENSION_CONTRADICTS.remedy) == 1
    assert page.count(DrawingCode.SHEET_SCALE.remedy) == 1
    for n in range(20):
        assert page.count(f"</span>Dimension {n} is wrong.") == 1
    assert "Nothing besides the reasons above." in page


@given(st.text(alphabet=st.sampled_from("Z-4.5 <b>&\"'\u202e–m\n"), max_size=60))
@settings(max_examples=30, deadline=None)
def test_a_place_is_kept_on_one_line_and_nothing_else_is_changed(sentence):
    reader = Reader()
    reader.feed(str(whole(sentence)))
    assert "".join(reader.text) == str(shown(sentence))
    assert {tag for tag, _ in reader.elements} <= {"span"}
    assert reader.faults == []


def test_a_long_name_with_minus_signs_can_still_be_broken():
    text = str(whole("a" * 200 + "-1" + "b" * 200))
    assert max(len(kept) for kept in re.findall(r'class="keep">([^<]*)<', text)) <= 26
