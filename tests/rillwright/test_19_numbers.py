"""Program numbers: one for all, that in the drawing's name, or counted; two drawings never get one unasked."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from support.door import run
from support.drawings import draw_ring

from extractor.errors import SettingsError
from rillwright.folder.ledger import Cause, Ledger, Result
from rillwright.folder.numbering import numbered
from rillwright.numbers import for_make, number_in
from rillwright.settings import NumberRule, Settings

WHOLE = NumberRule("name", 1, 9999)


def shop(rule, first=1, last=9999):
    return Settings(shop_text=f'[machine]\nnumbers = "{rule}"\nnumber_first = {first}\nnumber_last = {last}\n')


@pytest.mark.parametrize(
    ("name", "number"),
    [
        ("ring-0042.dxf", 42),
        ("4711.dxf", 4711),
        ("ring 0042 rev 3.dxf", 42),
        ("ring 7.dxf", 7),
        ("ring.dxf", 0),
        ("ring 12345678.dxf", 0),
        ("ring 7 of 9.dxf", 0),
        ("1234 5678.dxf", 0),
        ("ring 0000.dxf", 0),
    ],
)
def test_the_number_in_a_name(name, number):
    found, fault = number_in(Path(name), WHOLE)
    assert (found, not fault) == (number, bool(number))
    assert name in fault or number


@pytest.mark.parametrize(("number", "right"), [(199, False), (200, True), (300, True), (301, False)])
def test_a_number_lies_within_the_range(number, right):
    assert (number_in(Path(f"{number}.dxf"), NumberRule("name", 200, 300))[1] == "") is right


def test_make_takes_it_from_the_name_and_names_both_where_two_give_one(tmp_path):
    for name in ("a 12", "b 12", "c 13"):
        draw_ring(tmp_path / f"{name}.dxf")
    (tmp_path / "shop.toml").write_text(shop("name").shop_text)
    words = ["make", *map(str, sorted(tmp_path.glob("*.dxf"))), "--shop", str(tmp_path / "shop.toml")]
    told = run(*words)
    assert told.exit_code == 1
    assert [path.name for path in tmp_path.glob("*.nc")] == ["c 13.nc"]
    assert "O0013" in (tmp_path / "c 13.nc").read_text()
    (stop,) = json.loads((tmp_path / "a 12.json").read_text())["findings"][-1:]
    assert stop["code"] == "number"
    assert "a 12.dxf and " in stop["message"]
    assert "b 12.dxf give the same program number, 12." in stop["message"]


def test_make_does_not_count_unless_told_where_to_begin():
    drawings = [Path("a.dxf"), Path("b.dxf")]
    with pytest.raises(SettingsError, match="give --number"):
        for_make(drawings, shop("count"), None)
    assert [one.number for one in for_make(drawings, shop("count"), 50)] == [50, 51]
    assert [one.number for one in for_make(drawings, shop("fixed", 77), None)] == [77, 77]
    assert [one.number for one in for_make(drawings, Settings(), None)] == [1, 1]


def test_a_range_the_wrong_way_round_is_a_fault_of_the_shop_file():
    shop("count", 5, 5).check()
    with pytest.raises(SettingsError, match=r"\[machine\] number_first 6 is greater than number_last 5"):
        shop("count", 6, 5).check()


@pytest.fixture
def ledger(tmp_path):
    with Ledger(tmp_path) as opened:
        yield opened


def gone(drawing):
    return {drawing: Result(drawing, Cause("d", "s", "v"), "removed", 1, None, None, "", 1, "t", "t")}


def numbers(ledger, settings, *drawings, latest=None):
    given = [numbered(ledger, one, settings, latest or {}) for one in drawings]
    return [one.number_fault or one.number for one in given]


def test_each_drawing_keeps_its_own_and_thirty_have_thirty(ledger):
    drawings = [b"ring %d.dxf" % n for n in range(30)]
    first = numbers(ledger, Settings(), *drawings)
    assert sorted(first) == list(range(1, 31))
    assert numbers(ledger, Settings(), *reversed(drawings)) == first[::-1]
    assert numbers(ledger, shop("fixed", 9), *drawings[:2]) == [9, 9]


def test_when_the_range_is_full_those_of_drawings_that_are_gone_are_given_again(ledger):
    settings = shop("count", 7, 8)
    assert numbers(ledger, settings, b"a", b"b", b"c") == [7, 8, "Every program number from 7 to 8 is taken."]
    assert numbers(ledger, settings, b"c", latest=gone(b"a")) == [7]
    assert numbers(ledger, settings, b"a", latest=gone(b"b")) == [8]


def test_each_shop_file_counts_for_its_own_machine(ledger):
    one, other = (replace(shop("count"), shop_name=name) for name in ("a/shop.toml", "b/shop.toml"))
    assert numbers(ledger, one, b"a/1", b"a/2") == [1, 2]
    assert numbers(ledger, other, b"b/1") == [1]
    # Moved under another shop file it keeps its number where that is free.
    assert numbers(ledger, other, b"a/2") == [2]


def test_two_names_of_one_number_are_both_named_until_one_is_gone(ledger):
    settings = shop("name")
    assert numbers(ledger, settings, b"a 12.dxf", b"b 12.dxf", b"a 12.dxf") == [
        12,
        "a 12.dxf and b 12.dxf give the same program number, 12.",
        12,
    ]
    assert numbers(ledger, settings, b"b 12.dxf", latest=gone(b"a 12.dxf")) == [12]


def test_a_renamed_drawing_takes_its_number_along(ledger):
    assert numbers(ledger, Settings(), b"a", b"b") == [1, 2]
    ledger.renamed(b"a", b"c")
    assert numbers(ledger, Settings(), b"c", b"d") == [1, 3]
