"""The listed program and where stepping stops."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.forms import form, typed
from support.parts import part_of, row
from support.records import made

from rillwright.jobsheet.listing import listing, pieces_of
from rillwright.jobsheet.scene import scene_of
from rillwright.jobsheet.stage import stage_of
from rillwright.jobsheet.stops import stepping, stops_of
from rillwright.jobsheet.words import explained


@pytest.fixture(scope="module")
def ring():
    return made(part_of(row(3, first=-10, pitch=5, width=3, floor=34)), [(1, 2, 3)])


@given(st.text(st.characters(codec="latin-1", exclude_characters="\n\r\x0b\x0c\x1c\x1d\x1e\x85")))
def test_no_character_of_a_line_is_lost(line):
    assert "".join(p.text for p in pieces_of(line)) == line


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("G75 X34. Z-28. P1000", ["G75", "X34.", "Z-28.", "P1000"]),
        ("g01x-.5f.1", ["g01", "x-.5", "f.1"]),
        ("/N10 M08 (COOLANT X1)", ["N10", "M08"]),
        ("; G00 X0", []),
        ("%", []),
    ],
)
def test_words_are_address_and_number(line, words):
    assert [p.text for p in pieces_of(line) if p.kind == "word"] == words


def test_lines_know_their_grooves_and_set(ring):
    record, text = ring
    rows = listing(text, typed(record), {11: {5: "The floor."}}, {11: "Cuts three grooves."})
    assert "\n".join(r.text for r in rows) + "\n" == text
    cycle = rows[10]
    assert (cycle.grooves, cycle.set_index, cycle.sentence) == ((1, 2, 3), 0, "Cuts three grooves.")
    assert [p.meaning for p in cycle.pieces if p.meaning] == ["The floor."]
    assert rows[9].grooves == ()


def test_a_line_that_cuts_two_sets_belongs_to_neither(ring):
    record, text = ring
    part = record["part"] | {
        "sets": [{"grooves": [1], "count": 1, "pitch": 0}, {"grooves": [2, 3], "count": 2, "pitch": 5}]
    }
    assert listing(text, typed(record | {"part": part}))[10].set_index is None


MOVES = [
    [3, 0, 0, 10, 10, 10, 0],
    [5, 0, 1, 10, 0, 8, 0],
    [5, 0, 0, 8, 0, 9, 0],
    [5, 0, 1, 9, 0, 6, 0],
    [5, 0, 0, 6, 0, 10, 0],
    [7, 0, 0, 10, 0, 10, 10],
]


def test_each_cut_of_a_block_is_a_stop_and_the_way_out_belongs_to_its_block():
    lines = ["%", "", "G00 Z0", "(NOTE)", "G75", "M09", "G00 Z10", "%"]
    assert stops_of(MOVES, lines) == [(3, 1), (5, 2), (5, 4), (5, 5), (6, 5), (7, 6)]


def test_a_program_that_jumps_about_steps_through_its_moves_alone():
    jumping = [[5, 0, 0, 0, 0, 1, 0], [2, 0, 0, 1, 0, 0, 0]]
    assert stops_of(jumping, ["G21", "X0", "", "", "X1"]) == [(5, 1), (2, 2)]


@given(st.lists(st.tuples(st.integers(1, 9), st.booleans()), max_size=40))
def test_stops_never_go_back_and_end_with_the_last_move(shape):
    moves = [[line, 0, int(feed), 0, 0, 0, 0] for line, feed in sorted(shape)]
    counts = [count for _, count in stops_of(moves, ["G00"] * 9)]
    assert counts == sorted(counts)
    assert not moves or counts[-1] == len(moves)


def test_the_stepping_data_hold_every_move_and_the_insert_to_scale(ring):
    record, text = ring
    scene = scene_of(typed(record))
    stage = stage_of(scene)
    data = stepping(typed(record), scene, stage, text)
    assert form(data["moves"]) == record["path"]["moves"]
    edge = data["tools"][0]["edge"]
    assert edge[-1][0] - edge[0][0] == pytest.approx(3 * stage.view.scale, abs=0.01)
    assert data["tools"][0]["side"] == "outside"


def test_a_path_cut_short_stops_where_it_ends(ring):
    record, text = ring
    scene = scene_of(typed(record))
    short = record | {"path": record["path"] | {"moves": record["path"]["moves"][:6], "left_out": 20}}
    data = stepping(typed(short), scene, stage_of(scene), text)
    assert data["stops"][-1] == (11, 6)
    assert data["left_out"] == 20


def test_a_tool_that_the_set_up_does_not_list_is_not_drawn(ring):
    record, text = ring
    scene = scene_of(typed(record))
    bare = record | {"setup": record["setup"] | {"tools": []}}
    assert stepping(typed(bare), scene, stage_of(scene), text)["tools"] == [None]


def test_without_moves_there_is_no_stepping(ring):
    record, text = ring
    scene = scene_of(typed(record))
    assert stepping(typed(record | {"path": None}), scene, stage_of(scene), text) is None


def test_every_word_of_a_program_is_explained_where_it_stands(ring):
    _, text = ring
    meanings, sentences = explained(text, "two-block", "mm")
    for row_ in listing(text, None, meanings, sentences):
        words = [p for p in row_.pieces if p.kind == "word" and p.text[0] != "O"]
        assert all(p.meaning for p in words), row_.text
        assert row_.sentence or not words, row_.text
    cycle = meanings[11]
    assert "34" in cycle[5]
    assert sentences[11]


@pytest.mark.parametrize(
    ("text", "dialect"),
    [
        ("G01 X1. F0.1\n" * 4001, "two-block"),
        ("(NOTHING)", "two-block"),
        ("", "two-block"),
        ("G00 X1.", "nobody-knows"),
    ],
)
def test_what_nobody_can_explain_is_listed_all_the_same(text, dialect):
    assert explained(text, dialect, "mm") == ({}, {})
