"""A bare diameter at a leader of loose lines is held against what the leader points to, as a leader's own text is."""

import pytest
from support.draw import Cut, Ink, Turned, mixed, sheet_of, side_view
from support.varied import all_pairs

from extractor import ReadOptions, read_sheet
from extractor.sheet import Text
from extractor.sizing.lettering.pointers import led_sizes
from extractor.viewing.roles import assign

PART = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0), Cut(-40.0, 3.0, 30.0)))
HEADS = {
    "none": [],
    "open": [(1.8, 1.9), (0.6, 2.5)],
    "closed": [(1.8, 1.9), (0.6, 2.5)],
}


def leader(tip, head="open", knee=True):
    """A line from a floor up and away, with a shelf under the text."""
    x, y = tip
    rows = [(x, y, x + 8.0, y + 16.0)]
    rows += [(x + 8.0, y + 16.0, x + 12.0, y + 16.0)] if knee else []
    wings = [(x, y, x + dx, y + dy) for dx, dy in HEADS[head]]
    rows += wings
    if head == "closed":
        rows.append((*wings[0][2:], *wings[1][2:]))
    return Ink(solid=[(*row, 0.0) for row in rows])


def read(text, tip=(-11.5, 17.0), knee=True, head="open", more=(), part=PART):
    at = (tip[0] + (12.5 if knee else 8.5), tip[1] + 15.2)
    notes = (Text(text, at, 2.5), *more)
    return read_sheet(sheet_of(mixed(side_view(part), leader(tip, head, knee)), texts=notes), ReadOptions(units="mm"))


def stops(reading):
    return [f.code for f in reading.findings if f.stops]


@pytest.mark.parametrize(
    ("words", "wrong"), [("ROOT Ø{}", True), ("BOTTOM Ø {}", True), ("root Ø{} h11", True), ("A B Ø{}", False)]
)
def test_one_word_may_stand_before_it(words, wrong):
    """The floor is 34 across."""
    assert stops(read(words.format("34"))) == []
    assert stops(read(words.format("33"))) == ["dimension-contradicts"] * wrong


@all_pairs(head=HEADS, knee=[True, False], text=["%%c33", "\u00d834.5", "\u00d833 h11", "dia 35"])
def test_another_diameter_than_the_floor_is_a_contradiction(text, knee, head):
    text = text.replace("%%c", "\u00d8")
    assert stops(read(text, knee=knee, head=head)) == ["dimension-contradicts"]


@pytest.mark.parametrize("text", ["\u00d834", "\u00d834 h11", "\u00d834 0/-0.1"])
def test_the_floors_own_diameter_is_its_size(text):
    reading = read(text)
    assert stops(reading) == []
    first, second = reading.part.grooves
    assert "floor_diameter" in first.printed
    assert ("floor_diameter" in first.tolerances) is (text != "\u00d834")
    assert "floor_diameter" not in second.tolerances


def test_a_diameter_whose_leader_points_to_nothing_is_as_before():
    assert stops(read("\u00d833", tip=(-11.5, 45.0))) == []
    assert stops(read("\u00d833", tip=(-11.5, 24.0))) == []


def test_a_land_is_held_too():
    assert stops(read("\u00d839", tip=(-25.0, 20.0))) == ["dimension-contradicts"]
    assert stops(read("\u00d840", tip=(-25.0, 20.0))) == []


@pytest.mark.parametrize(("letters", "heard"), [(24, True), (25, False)])
def test_how_long_a_bare_size_is_at_most(letters, heard):
    text = "\u00d833 +0.1/-0.1".ljust(letters - 1) + "."
    assert (stops(read(text)) == ["dimension-contradicts"]) is heard


@pytest.mark.parametrize(("text", "heard"), [("\u00d811.4", True), ("\u00d811.3", False), ("\u00d80.05", False)])
def test_a_zone_of_a_geometric_tolerance_is_no_size(text, heard):
    """The floor is 34 across: a third of it is 11.33. ISO 1101 sets a diameter sign before a round zone (memory)."""
    assert (stops(read(text)) == ["dimension-contradicts"]) is heard


def test_what_begins_otherwise_is_for_notes():
    assert "dimension-contradicts" not in stops(read("1.3 WIDE \u00d833", tip=(-25.0, 20.0)))
    assert stops(read("2x \u00d839", tip=(-25.0, 20.0))) == ["dimension-contradicts"]


@pytest.mark.parametrize(
    ("text", "found"),
    [("R0.8", ["dimension-contradicts"]), ("RADIUS 0.8", ["dimension-contradicts"]), ("R0.4", []), ("R0.4 MAX", [])],
)
def test_a_radius_led_to_a_floor_s_corner_is_held_against_it(text, found):
    part = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0, corner=0.4),))
    reading = read(text, tip=(-10.117, 17.117), part=part)
    assert stops(reading) == found
    assert ("corner_radius" in reading.part.grooves[0].tolerances) is ("MAX" in text)


@pytest.mark.parametrize(("count", "led"), [(3, 1), (4, 0)])
def test_a_hatch_line_that_is_drawn_as_a_line_leads_no_size_to_where_it_ends(count, led):
    """Four that lean alike in even steps are hatching; the size stands in line with the lower end of the last."""
    ink = side_view(PART)
    ink.solid += [(-25.0 - 8 * k, 2.0, -19.0 - 8 * k, 8.0, 0.0) for k in range(count)]
    note = Text("\u00d829.4", (-25.0 - 8 * (count - 1) - 10.5, 1.0), 2.5)
    sheet = sheet_of(ink, texts=(note,))
    known = assign(sheet).told_on(sheet)
    assert [text for text, _ in led_sizes(sheet)] == [note]
    assert [text for text, _ in led_sizes(known)] == [note] * led
    # Nothing else of the sheet is changed by it.
    assert (known.segments.ends == sheet.segments.ends).all()
    before, after = ([seg.sources[k][:4] for k in seg.source] for seg in (sheet.segments, known.segments))
    assert before == after
    assert sum(known.segments.of(lambda s: s.owner == "HATCH LINE")) == count * (1 - led)


@pytest.mark.parametrize(("words", "code"), [("NECK Ø33", "note-contradicts"), ("ROOT Ø33", "dimension-contradicts")])
def test_a_diameter_with_the_name_of_a_groove_is_a_note_at_it_and_no_size_of_what_the_line_touches(words, code):
    assert stops(read(words)) == [code]


@pytest.mark.parametrize(("words", "found"), [("NECK Ø34", []), ("ROOT Ø34", ["dimension-contradicts"])])
def test_a_note_that_touches_the_land_beside_its_groove_is_no_size_of_the_land(words, found):
    assert stops(read(words, tip=(-20.0, 20.0))) == found
