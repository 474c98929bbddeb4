"""Out of hollow stock no solid part is turned. Words: common practice, no source."""

import pytest
from support.draw import Cut, Turned, section, sheet_of, side_view

from extractor.part import ReadOptions
from extractor.reading import read_sheet
from extractor.sheet import Text

SOLID = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),))
BUSH = Turned(((60.0, 40.0),), (Cut(-10.0, 3.0, 34.0),), bore=20.0)


def told(words, ink):
    """Whether a text far from the view is told to be stock that the part is not turned of."""
    sheet = sheet_of(ink, texts=(Text(words, (-30.0, -70.0), 2.5),))
    found = read_sheet(sheet, ReadOptions(units="mm")).findings
    return [f.level.value for f in found if "is hollow stock" in f.message] == ["caution"]


@pytest.mark.parametrize(
    ("words", "solid", "bored"),
    [
        ("TUBE 45 x 5", True, True), ("HOLLOW BAR 42/18", True, False), ("Rohr Ø42x11 DIN EN 10305", True, False),
        ("HOHLSTANGE 42 x 10", True, True), ("tubo Ø45 x 14 mm", True, False), ("STEEL PIPE 42.4 x 12", True, False),
        # As large inside as the bore, and more; as large across as the part, and far larger.
        ("TUBE 45 / 20", True, False), ("TUBE 45 / 20.1", True, True), ("TUBE 40 x 12", True, False),
        ("TUBE 39.9 x 12", False, False), ("TUBE 60 x 25", True, False), ("TUBE 60.1 x 25", False, False),
        # Solid all the same, another thing, no size.
        ("TUBE 42 x 21", False, False), ("TUBE 45 x 5 FOR JIG", False, False), ("FITS TUBE 45 x 5", False, False),
        ("TUBE 45", False, False), ("BAR 45 x 65", False, False),
    ],
)  # fmt: skip
def test_a_tube_is_told_for_a_part_that_is_solid_or_has_a_smaller_bore(words, solid, bored):
    assert (told(words, side_view(SOLID)), told(words, section(BUSH))) == (solid, bored)
