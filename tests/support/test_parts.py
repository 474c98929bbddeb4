"""The part builder builds what it says."""

from support.parts import part_of, row


def test_a_bar_with_two_grooves():
    part = part_of(row(2, first=-10, pitch=10, width=3, floor=34))
    assert [(g.id, g.z_near, g.z_far, g.mouth_diameter) for g in part.grooves] == [(1, -10, -13, 40), (2, -20, -23, 40)]
    assert part.lands == ((0, 20), (-60, 20))
    assert part.outline[:4] == ((0, 20), (-10, 20), (-10, 17), (-13, 17))
    assert len(part.outline) == 10


def test_a_relief_beside_a_shoulder_has_the_lower_land_as_mouth():
    (groove,) = part_of([(-27, -30, 34)], steps=[(0, 40), (-30, 50)]).grooves
    assert (groove.near_land_diameter, groove.far_land_diameter, groove.mouth_diameter) == (40, 50, 40)


def test_any_order_is_numbered_from_the_front():
    part = part_of([(-30, -33, 34), (-10, -13, 34)])
    assert [g.z_near for g in part.grooves] == [-10, -30]


def test_an_inside_groove_leaves_the_outside_alone():
    part = part_of([(-10, -13, 24, {"where": "inside"})], bore=20)
    assert part.grooves[0].mouth_diameter == 20
    assert part.outline == part.lands
