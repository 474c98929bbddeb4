"""Which grooves were added, taken away, moved, resized between two revisions."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.parts import part_of, row

from rillwright.folder.groove_changes import MOST_SENTENCES, groove_changes
from rillwright.records.recording import recorded_groove


def grooves(*spots):
    return [recorded_groove(groove) for groove in part_of(spots, length=2000).grooves]


def test_the_same_grooves_give_no_sentence():
    assert groove_changes(grooves(*row(5, -10, 5, 3, 34)), grooves(*row(5, -10, 5, 3, 34))) == ()


@pytest.mark.parametrize(
    ("after", "sentences"),
    [
        ([(-10, -13, 34), (-20, -23, 34), (-30, -33, 34)], ("Groove 3 was added at Z-30, 3 wide.",)),
        ([(-10, -13, 34)], ("The earlier groove 2 at Z-20 is gone.",)),
        ([(-10, -13, 34), (-20.5, -23.5, 34)], ("Groove 2 moved by 0.5 toward the chuck.",)),
        ([(-9, -12, 34), (-20, -23, 34)], ("Groove 1 moved by 1 toward the front face.",)),
        ([(-10, -13, 33), (-20, -23, 34)], ("Groove 1 was resized: floor diameter 34 is now 33.",)),
        ([(-10, -13, 34), (-20, -24, 34)],
         ("Groove 2 moved by 0.5 toward the chuck.", "Groove 2 was resized: width 3 is now 4.")),
        ([(-5, -8, 34), (-10, -13, 34), (-20, -23, 34)], ("Groove 1 was added at Z-5, 3 wide.",)),
        ([], ("The earlier groove 1 at Z-10 is gone.", "The earlier groove 2 at Z-20 is gone.")),
    ],
)  # fmt: skip
def test_each_kind_of_change_is_one_sentence(after, sentences):
    assert groove_changes(grooves((-10, -13, 34), (-20, -23, 34)), grooves(*after)) == sentences


def test_a_row_that_moves_by_less_than_its_pitch_is_no_row_taken_away_and_added():
    told = groove_changes(grooves(*row(20, -10, 5, 3, 34)), grooves(*row(20, -11, 5, 3, 34)))
    assert len(told) == 20
    assert all("moved by 1 toward the chuck" in sentence for sentence in told)


def test_many_changes_are_cut_off_and_counted():
    told = groove_changes([], grooves(*row(200, -10, 5, 3, 34)))
    assert len(told) == MOST_SENTENCES + 1
    assert told[-1] == "And 150 more changes."


@given(st.sets(st.integers(0, 30), min_size=1), st.sets(st.integers(0, 30)))
def test_every_added_and_lost_groove_is_told_exactly_once(before, gone):
    old = grooves(*[(-10 - 20 * n, -13 - 20 * n, 34) for n in before])
    new = grooves(*[(-10 - 20 * n, -13 - 20 * n, 34) for n in before - gone])
    assert len(groove_changes(old, new)) == len(groove_changes(new, old)) == len(before & gone)
