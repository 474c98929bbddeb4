"""What no print shows: a groove on a layer that is off or frozen, and one under a mask."""

import pytest
from support.draw import Cut, Turned, full_outline, half_profile, rotated, sheet_of, side_view
from support.sheets import blank, read_back

from extractor import ReadOptions, read_sheet
from extractor.opening import expand

RING = Turned(((60.0, 40.0),), (Cut(-10.0, 4.0, 34.0), Cut(-30.0, 4.0, 34.0)))
FORM = ((-45.0, 20.0, -45.0, 17.0), (-45.0, 17.0, -49.0, 17.0), (-49.0, 17.0, -49.0, 20.0))


def told(draw=side_view, turn=0, **more):
    reading = read_sheet(sheet_of(draw(RING), rotated(turn), **more), ReadOptions(units="mm"))
    return [(f.level, f.message.split(" at X")[0]) for f in reading.findings if f.code == "lines-unexplained"]


def notch(*sides, top=20.0, turn=0):
    """The lines of a notch under a land on some sides."""
    move = rotated(turn)
    rows = [(a, s * min(b, top), c, s * min(d, top)) for a, b, c, d in FORM for s in sides]
    return tuple((*move(a, b), *move(c, d)) for a, b, c, d in rows)


def mask(z_near, z_far, low, high, turn=0):
    move = rotated(turn)
    return tuple(move(z, r) for z, r in ((z_near, low), (z_near, high), (z_far, high), (z_far, low)))


UNSEEN = [("caution", "Lines on a layer that is not shown have the form of a groove")]
MASKED = [("caution", "A mask lies over the groove")]


@pytest.mark.parametrize(("draw", "sides"), [(side_view, (1, -1)), (full_outline, (-1, 1)), (half_profile, (1,))])
@pytest.mark.parametrize("turn", [0, 90])
def test_a_groove_on_a_layer_that_is_not_shown_is_told(draw, sides, turn):
    assert told(draw, turn, unseen=notch(*sides, turn=turn)) == UNSEEN


@pytest.mark.parametrize("unseen", [notch(1), notch(1, -1, top=19.9), notch(1, -1)[:2], ((0.0, 0.0, 30.0, 30.0),)])
def test_other_lines_on_it_are_not(unseen):
    assert told(unseen=unseen) == []


@pytest.mark.parametrize(
    ("over", "out"),
    [
        ((-9.0, -15.0, 16.0, 21.0), MASKED),
        ((-9.0, -15.0, -21.0, -16.0), MASKED),
        ((-9.0, -35.0, -21.0, 21.0), 2 * MASKED),
        ((-9.0, -13.1, 16.0, 21.0), MASKED),  # 3.1 of 4
        ((-9.0, -12.9, 16.0, 21.0), []),
        ((-15.0, -25.0, 5.0, 15.0), []),  # behind a text in the metal
        ((-9.0, -15.0, 20.0, 30.0), []),  # behind one over the part
    ],
)
@pytest.mark.parametrize("turn", [0, 90])
def test_a_mask_over_most_of_a_groove_in_one_half_is_told(over, out, turn):
    assert told(turn=turn, masks=(mask(*over, turn=turn),)) == out


@pytest.mark.parametrize("state", ["off", "freeze", None])
def test_what_a_file_does_not_show_is_kept(state):
    doc = blank(units=4)
    model, layer = doc.modelspace(), doc.layers.add("X")
    for a, b, c, d in notch(1, -1):
        model.add_line((a, b), (c, d), dxfattribs={"layer": "X"})
    model.add_wipeout([(0, 0), (10, 0), (10, 5)])
    model.add_line((0, 0), (60, 0))
    if state:
        getattr(layer, state)()
    sheet = read_back(doc)
    assert sorted(sheet.unseen) == (sorted(notch(1, -1)) if state else [])
    (corners,) = sheet.masks
    assert {(0.0, 0.0), (10.0, 0.0), (10.0, 5.0)} <= {(round(x, 6), round(y, 6)) for x, y in corners}


@pytest.mark.parametrize(("most", "whole"), [(6, True), (5, False)])
def test_no_more_than_so_many_of_them_are(most, whole, monkeypatch):
    monkeypatch.setattr(expand, "MOST_UNSEEN", most)
    doc = blank(units=4)
    doc.layers.add("X").off()
    for a, b, c, d in notch(1, -1):
        doc.modelspace().add_line((a, b), (c, d), dxfattribs={"layer": "X"})
    doc.modelspace().add_line((0, 0), (60, 0))
    assert (len(read_back(doc).unseen) == 6) is whole  # lines that the file holds in a row are kept or left together
