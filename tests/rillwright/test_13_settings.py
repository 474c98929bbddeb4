"""What one run is told beside the drawing."""

from dataclasses import replace

import pytest

from extractor.errors import SettingsError
from extractor.part import ReadOptions
from rillwright.settings import Settings
from rillwright.toml_file import read_toml_file

SHOP = 'units = "mm"\n[machine]\ndialect = "one-block"\nmax_rpm = 2000\n'


def test_nothing_given_is_the_built_in_shop():
    shop = Settings().shop("mm")
    assert shop.machine.dialect == "two-block"
    assert shop.tools


def test_the_shop_file_rules_and_the_call_rules_it():
    told = Settings(shop_text=SHOP)
    assert told.shop("mm").machine.dialect == "one-block"
    assert replace(told, dialect="plunge").shop("mm").machine.dialect == "plunge"
    assert replace(told, changes=("machine.max_rpm=900",)).shop("mm").machine.max_rpm == 900


def test_every_fault_of_a_shop_file_is_named_at_once():
    text = 'units = "mm"\n[machine]\nmax_rmp = 1\njaw_gap = -4\n[[tools]]\nwidth = 3.0\n'
    with pytest.raises(SettingsError) as caught:
        Settings(shop_text=text, shop_name="mine.toml").check()
    for fault in ("mine.toml", "max_rmp", "jaw_gap", "station"):
        assert fault in str(caught.value)


@pytest.mark.parametrize("settings", [Settings(dialect="two-blok"), Settings(shop_text=SHOP.replace("one-", "won-"))])
def test_an_unknown_dialect_is_answered_with_a_near_one(settings):
    with pytest.raises(SettingsError, match=r"two-block|one-block"):
        settings.check()


@pytest.mark.parametrize("number", [0, 10_000, -1])
def test_a_program_number_fits_a_control(number):
    with pytest.raises(SettingsError, match="between 1 and 9999"):
        Settings(number=number)


def test_the_digest_changes_with_all_that_decides_and_nothing_else():
    one = Settings(ReadOptions(accept=frozenset({"a", "b", "c"})), SHOP)
    same = Settings(ReadOptions(accept=frozenset({"c", "b", "a"})), SHOP, shop_name="elsewhere.toml")
    assert one.digest == same.digest
    others = [
        replace(one, shop_text=SHOP + "#"),
        replace(one, dialect="plunge"),
        replace(one, changes=("peck=1",)),
        replace(one, number=2),
        replace(one, options=ReadOptions(units="in")),
        replace(one, options=ReadOptions()),
    ]
    assert len({one.digest, *(other.digest for other in others)}) == len(others) + 1


def test_a_shop_file_is_read_with_or_without_a_mark_of_its_encoding(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_bytes(b"\xef\xbb\xbf" + SHOP.encode())
    assert read_toml_file(path) == SHOP


@pytest.mark.parametrize(
    ("data", "sentence"), [(b"\xff\xfe", "not UTF-8"), (b"#" * 1_000_001, "too big"), (None, "can't be read")]
)
def test_a_file_that_is_no_shop_file_is_told_so(tmp_path, data, sentence):
    path = tmp_path / "shop.toml"
    if data is not None:
        path.write_bytes(data)
    with pytest.raises(SettingsError, match=sentence):
        read_toml_file(path)
