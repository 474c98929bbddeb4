"""A program beside a drawing that can't be held against it: the verdict says so instead of agreeing or failing."""

import json

import pytest
from support.drawings import draw_ring

from rillwright.folder.task import CheckTask
from rillwright.settings import Settings

SHOP = 'units = "mm"\n[[tools]]\nstation = 3\nwidth = 3.0\ncorner_radius = 0.2\nmax_depth = 12.0\nreference = "far"\n'
RIGHT = b"%\nO1\nG21 G99\nT0303\nG97 S800 M3\nG0 X42. Z-13.\nG1 X34. F.08\nG0 X42.\nG0 X100. Z50.\nM30\n%\n"


def judged(folder, program=RIGHT, **drawn):
    """The judgement of a program beside a ring, and its files by name."""
    drawing = draw_ring(folder / "ring.dxf", **drawn)
    (folder / "ring.tap").write_bytes(program)
    judgement = CheckTask(folder / "ring.tap", drawing, Settings(shop_text=SHOP), folder / "out" / "ring.tap")()
    return judgement, {path.name: data.decode() for path, data in judgement.files}


@pytest.mark.parametrize(
    ("program", "drawn", "said"),
    [
        (RIGHT, {"insunits": 0}, "--units"),
        (b"G0 X1.\0G1 X2.\n", {}, "ring.tap"),
    ],
    ids=["a drawing without units", "a program of bytes"],
)
def test_what_can_not_be_compared_is_neither_agreed_nor_different(tmp_path, program, drawn, said):
    judgement, files = judged(tmp_path, program, **drawn)
    answer = json.loads(files["ring.tap.verdict.json"])
    assert judgement.agree is None
    assert (answer["agree"], answer["grooves"]) == (False, [])
    (finding,) = answer["findings"]
    assert (finding["level"], finding["code"]) == ("stop", "unreadable")
    assert said in finding["message"]
    assert finding["message"] in judgement.reason
    assert files["ring.tap.verdict.txt"] == finding["message"] + "\n"


def test_the_same_pair_is_judged_once_both_can_be_read(tmp_path):
    judgement, files = judged(tmp_path, grooves=((-10, -13, 34),))
    assert judgement.agree is True, judgement.reason
    assert "unreadable" not in files["ring.tap.verdict.json"]
