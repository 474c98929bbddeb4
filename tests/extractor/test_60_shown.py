"""What the picture of a dimension shows is what is on paper: other limits in its data are kept by nobody.

Limits of h11 at 34 mm: ISO 286-2, 0 to -0.160.
"""

import pytest
from support.sheets import drawn
from support.ties import across, along, bar, tied

WIDTH, FLOOR = "width", "floor_diameter"


def read(dimension):
    part, findings = tied(bar(), dimension)
    stops = [f for f in findings if f.stops]
    return dict(part.grooves[0].tolerances), [f.code for f in stops], " ".join(f.message for f in stops)


@pytest.mark.parametrize(
    ("dimension", "field", "kept"),
    [
        (along(-10, -13, None, deviations=(0.0, 0.1), shown="3 +0.1/0"), WIDTH, (0.0, 0.1)),
        (along(-10, -13, None, deviations=(0.0, 0.1), shown="3"), WIDTH, (0.0, 0.1)),
        (along(-10, -13, "<> WIDE", deviations=(0.0, 0.1), shown="3 WIDE"), WIDTH, (0.0, 0.1)),
        (along(-10, -13, "3", deviations=(0.0, 0.1), shown="3"), WIDTH, None),
        (along(-10, -13, None, deviations=(0.0, 0.1), shown=""), WIDTH, (0.0, 0.1)),
        (along(-10, -13, None, deviations=(0.0, 0.1), shown="3 +0.2/0"), WIDTH, None),
        (along(-10, -13, None, deviations=(0.0, 0.1), shown="3 +0.105/0"), WIDTH, (0.0, 0.1)),
        (along(-10, -13, None, deviations=(0.0, 0.1), shown="3 +0.1052/0"), WIDTH, None),
        (along(-10, -13, None, deviations=(0.0, 0.1), shown="3.1^3.0"), WIDTH, (0.0, 0.1)),
        (along(-10, -13, None, shown="3 +0.2/0"), WIDTH, None),
        (along(-10, -13, "3 +0.2/0", deviations=(-1.0, 1.0), shown="3 +0.2/0"), WIDTH, (0.0, 0.2)),
        (across(34, "Ø34", deviations=(-0.1, 0.0), shown="Ø34"), FLOOR, None),
        (across(34, None, deviations=(-0.16, 0.0), shown="Ø34 h11"), FLOOR, (-0.16, 0.0)),
        (across(34, None, deviations=(-0.1, 0.0), shown="Ø34 h11"), FLOOR, None),
    ],
)
def test_limits_are_kept_where_picture_and_data_agree(dimension, field, kept):
    tolerances, stops, words = read(dimension)
    if kept is not None:
        assert (tolerances, stops) == ({field: pytest.approx(kept)}, [])
    else:
        assert (tolerances, stops) == ({}, ["dimension-contradicts"])
        assert f'The dimension that shows "{dimension.shown}"' in words


@pytest.mark.parametrize(
    ("floor", "shown", "kept"),
    [
        (34.04, "Ø34.0 +0.2/0", (-0.04, 0.16)),
        (34.04, "Ø34.0 +0.2/+0.1", None),
        (34.04, "Ø34 +0.21/-0.02", None),
        (33.96, "Ø34.0 +0.2/0", (0.04, 0.24)),
        (34.0, "Ø34.0 +0.24/+0.04", None),
    ],
)
def test_a_size_rounded_for_the_picture_takes_its_limits_along(floor, shown, kept):
    """What is on paper counts: 34.0 to 34.2 is 0.04 below to 0.16 above the 34.04 that is drawn."""
    dimension = across(floor, None, deviations=(0.0, 0.2), shown=shown)
    part, findings = tied(bar((-10, -13, floor), (-20, -23, 30)), dimension)
    assert dict(part.grooves[0].tolerances) == ({FLOOR: pytest.approx(kept)} if kept else {})
    assert [f.code for f in findings if f.stops] == ([] if kept else ["dimension-contradicts"])


def test_two_tolerances_of_one_width_are_quoted_as_sizes():
    """Neither dimension has a text of its own."""
    two = (along(-10, -13, None, deviations=(0.0, up), r=r) for up, r in ((0.1, 20.0), (0.2, 24.0)))
    _, findings = tied(bar(), *two)
    (stop,) = (f for f in findings if f.stops)
    assert stop.message.startswith('"3" gives the width of groove 1 as 3 to 3.2 where the sheet also gives 3 to 3.1')


def test_distances_are_held_too():
    assert read(along(0, -10, None, deviations=(-0.1, 0.1), shown="10 ±0.2"))[1] == ["dimension-contradicts"]
    assert read(along(0, -10, None, deviations=(-0.1, 0.1), shown="10 ±0.1"))[1] == []


def test_an_answered_contradiction_leaves_no_general_limits_either():
    """Nor at the groove alike. ISO 2768-1 table 1: 3 mm and 6 mm in class m are within 0.1."""
    part, _ = tied(bar(), along(-10, -13, None, deviations=(0.0, 0.1), shown="3 +0.2/0"), notes=["ISO 2768-m"])
    assert WIDTH not in part.grooves[0].tolerances | part.grooves[1].tolerances
    assert part.grooves[2].tolerances[WIDTH] == (-0.1, 0.1)


@pytest.mark.parametrize(("texts", "shown"), [((), ""), (("3 H13",), "3 H13"), (("3", "H13"), "")])
def test_only_one_text_of_a_picture_is_what_it_shows(texts, shown):
    def draw(modelspace):
        made = modelspace.add_linear_dim(base=(0, 20), p1=(0, 0), p2=(3, 0), text="<>", dimstyle="Standard")
        made.render()
        block = modelspace.doc.blocks[made.dimension.dxf.geometry]
        for entity in list(block.query("TEXT MTEXT")):
            block.delete_entity(entity)
        for words in texts:
            block.add_mtext(words, dxfattribs={"insert": (1, 20)})

    (dimension,) = drawn(draw).dimensions
    assert dimension.shown == shown
