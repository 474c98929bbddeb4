"""Sizes that speak of several grooves and do not hold for one: `4 TYP`, `GROOVES 4 WIDE`, `NUTBREITE 4`.

That such words mean every groove without a size of its own: common practice, no source (ISO 129-1 asks for `n x`, from
memory).
"""

from dataclasses import replace

import pytest
from support.parts import part_of
from support.ties import HERE, across, along, bar, tied

from extractor.sheet import Dimension, DimensionKind
from extractor.sizing.remaining.of_several import NEAR

PLAIN = [(-10, -14, 34), (-22, -26, 34), (-34, -38, 34)]
"""Three grooves 4 wide and 3 deep in a bar 40 across."""


def led(words, z=-12.0, r=18.0):
    """Words at the leader of a groove."""
    return Dimension(DimensionKind.LEADER, (HERE.on_sheet(z, r), HERE.on_sheet(z + 8, 40)), 0.0, 0.0, words)


def third(width=4.0, floor=34.0, **extra):
    """The bar with another third groove."""
    return bar(*PLAIN[:2], (-34, -34 - width, floor, extra))


def told(part, *dimensions, notes=()):
    """The stops, as codes and the groove that each names."""
    return [(f.code, f.groove) for f in tied(part, *dimensions, notes=notes)[1] if f.stops]


WIDE = [
    "GROOVES 4 WIDE", "GROOVE WIDTH 4", "WIDTH OF GROOVES 4", "NUTBREITE 4", "NUTEN 4 BREIT", "GORGES LARGEUR 4",
    "LARGEUR DES GORGES 4", "GOLE LARGHEZZA 4", "LARGHEZZA DELLE GOLE 4", "RANURAS 4 DE ANCHO", "CANAIS LARGURA 4",
    "LARGURA DOS CANAIS 4", "GROEFBREEDTE 4", "SLEUVEN 4 BREED", "SZEROKOŚĆ ROWKÓW 4", "DRÁŽKY ŠÍŘKA 4",
    "SPÅRBREDD 4", "SPÅREN 4 BREDA",
]  # fmt: skip
DEEP = ["GROOVES 3 DEEP", "GROOVE DEPTH 3", "NUTTIEFE 3", "PROFONDEUR DES GORGES 3", "SPÅRDJUP 3"]


@pytest.mark.parametrize(("words", "off"), [(w, {"width": 4.1}) for w in WIDE] + [(w, {"floor": 34.2}) for w in DEEP])
def test_a_note_on_all_grooves_holds_for_each_of_them(words, off):
    found = [told(part, notes=[words]) for part in (third(), third(**off))]
    assert found == [[], [("note-contradicts", 3)]]


@pytest.mark.parametrize(
    ("size", "off"),
    [
        (along(-10, -14, "4 TYP"), {"width": 4.1}), (along(-10, -14, "4 (TYP)"), {"width": 4.5}),
        (along(-22, -26, "TYP. 4"), {"width": 3.5}), (along(-10, -14, "4 WIDE TYP"), {"width": 4.1}),
        (along(-10, -14, "<> TYP"), {"width": 4.1}), (across(34, "Ø34 TYP", z=-12.0), {"floor": 34.2}),
        (led("4 WIDE TYP"), {"width": 4.1}), (led("3 DEEP TYP"), {"floor": 35.0}),
        (led("Ø34 TYP", r=17.0), {"floor": 33}),
        (led("4 x Ø34 TYP"), {"floor": 34.2}), (led("4 BREIT TYP."), {"width": 4.2}),
        (led("GROOVES 4 WIDE"), {"width": 4.2}),
    ],
)  # fmt: skip
def test_a_typical_size_holds_for_each_groove_like_the_one_that_it_stands_at(size, off):
    """A leader, a dimension; above and below the figure."""
    (odd,) = [f for f in tied(third(**off), size)[1] if f.stops]
    assert (odd.groove, told(third(), size)) == (3, [])
    assert f"{next(iter(off.values())) if size.text != '3 DEEP TYP' else 2.5:g}" in odd.message


TYPICAL = along(-10, -14, "4 TYP")


@pytest.mark.parametrize(
    ("part", "sizes", "notes"),
    [
        (third(4.5), [TYPICAL, along(-34, -38.5, "4.5")], []),
        (bar(PLAIN[0], (-22, -26.5, 34), (-34, -38.5, 34)), [TYPICAL, along(-22, -26.5, "4.5")], []),
        (third(4.5), [TYPICAL, along(-34, -38.5)], []),
        (third(4.5), [TYPICAL, led("4.5 x 3", z=-36.0)], []),
        (third(4.5), [TYPICAL, led("4.5 WIDE", z=-36.0)], []),
        (third(4.5), [TYPICAL], ["1 GROOVE 4.5 WIDE"]),
        (third(4.5), [TYPICAL, along(0, -34, "34"), along(0, -38.5, "38.5")], []),
        (bar(*PLAIN, (-46, -50.5, 34), (-54, -58.5, 34)), [TYPICAL, along(-46, -50.5, "4.5")], []),
        (third(4.5), [along(-10, -14, "4")], []),
        (third(4.5), [led("4 WIDE")], []),
        (third(4.5), [led("GROOVE 4x3")], ["GROOVE 4 WIDE"]),
        (third(4.5), [along(-10, -14, "2x 4 TYP")], []),
        (third(2.0), [TYPICAL], []),
        (third(4.5, shape="round"), [TYPICAL], []),
        (third(4.5, shape="relief"), [TYPICAL], ["GROOVES 4 WIDE"]),
        (third(4.5, 36), [TYPICAL], []),
        (third(3.0, 36), [], ["GROOVES 4 WIDE"]),
        (third(4.0, 35), [TYPICAL], ["GROOVE WIDTH 4"]),
        (third(4.5), [], ["GROOVE 1: WIDTH 4"]),
    ],
)  # fmt: skip
def test_a_groove_with_a_size_of_its_own_or_of_another_kind_is_not_spoken_of(part, sizes, notes):
    assert told(part, *sizes, notes=notes) == []


@pytest.mark.parametrize(
    ("share", "alarm"), [(NEAR - 0.01, True), (NEAR + 0.01, False), (0.01 - NEAR, True), (-0.01 - NEAR, False)]
)
def test_a_groove_far_wider_or_narrower_is_of_another_kind(share, alarm):
    assert bool(told(third(round(4.0 * (1 + share), 3)), TYPICAL)) is alarm


def test_grooves_in_the_bore_and_on_other_lands_are_held_as_well():
    inside = {"where": "inside", "mouth_diameter": 20}
    bore = bar(*((z, z - width, 26, inside) for z, width in ((-10, 4), (-22, 4), (-34, 4.2))), bore=20)
    assert told(bore, along(-10, -14, "4 TYP", r=10.0)) == [("dimension-contradicts", 3)]
    stepped = part_of([(-10, -14, 34), (-44, -48.2, 44)], steps=[(0, 40), (-30, 50)])
    assert told(replace(stepped, frame=HERE), TYPICAL) == [("dimension-contradicts", 2)]


@pytest.mark.parametrize(
    "words",
    ["4 ALL GROOVES", "4 (ALL GROOVES)", "4 ALLE NUTEN", "4 TOUTES LES GORGES", "4 TUTTE LE GOLE",
     "4 TODAS LAS RANURAS", "4 TODAS AS RANHURAS", "4 ALLE GROEVEN", "4 WSZYSTKIE ROWKI",
     "4 VŠECHNY DRÁŽKY", "4 ALLA SPÅR"],
)  # fmt: skip
def test_a_dimension_that_names_all_grooves_is_read_and_held(words):
    size = along(-10, -14, words)
    assert [f.code for f in tied(third(), size)[1] if f.level != "note"] == []
    assert told(third(4.2), size) == [("dimension-contradicts", 3)]


@pytest.mark.parametrize(
    "words",
    ["ALL GROOVES IDENTICAL", "GROOVES EQUAL", "ALLE NUTEN GLEICH", "GORGES IDENTIQUES", "TUTTE LE GOLE UGUALI",
     "RANURAS IGUALES", "CANAIS IGUAIS", "GROEVEN IDENTIEK", "ROWKI JEDNAKOWE", "DRÁŽKY STEJNÉ", "ALLA SPÅR LIKA"],
)  # fmt: skip
def test_grooves_that_are_said_to_be_alike_are(words):
    assert [f.code for f in tied(third(), notes=[words])[1] if f.level != "note"] == []
    assert told(third(4.2), notes=[words]) == told(third(2, 36), notes=[words]) == [("note-contradicts", 3)]
    assert told(third(shape="round"), notes=[words]) == [("note-contradicts", 3)]
