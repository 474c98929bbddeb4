"""Whatever is done to a drawing's bytes or tags, the reader answers or says one sentence; the full bench has 2,000."""

from pathlib import Path

import pytest
from support.mutate import BYTE_CHANGES, TAG_CHANGES, mutations, split

from extractor.errors import RillwrightError
from extractor.overlay import write_overlay
from extractor.reading import read_drawing

SAMPLES = sorted((Path(__file__).resolve().parents[2] / "drawings").glob("*.dxf"))
SHARE = 4


def test_there_are_samples_of_every_kind_of_change():
    assert len(SAMPLES) == 8
    names = {name.split(":")[1].split("x")[0] for name, _ in mutations(SAMPLES[0].read_bytes(), 300, seed=5)}
    assert len(names) == len({f.__name__ for f in (*BYTE_CHANGES, *TAG_CHANGES)})


def test_mutations_are_the_same_every_time():
    data = SAMPLES[0].read_bytes()
    assert list(mutations(data, 6, seed=3)) == list(mutations(data, 6, seed=3))
    assert split(data)[0] == (b"  0", b"SECTION")


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda p: p.stem)
def test_damage_gives_an_answer_or_one_sentence(sample, tmp_path):
    path = tmp_path / "damaged.dxf"
    for name, data in mutations(sample.read_bytes(), SHARE, seed=11):
        path.write_bytes(data)
        try:
            reading = read_drawing(path)
            write_overlay(path, reading, (), tmp_path / "overlay.dxf")
        except RillwrightError as error:
            message = str(error)
            assert message.startswith("damaged.dxf "), (name, message)
            assert message.count("\n") == 0, name
        else:
            assert reading.part is not None or any(f.stops for f in reading.findings), name


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda p: p.stem)
def test_a_sound_sample_has_nothing_to_repair(sample):
    codes = {f.code for f in read_drawing(sample).findings}
    assert not codes & {"file-repaired", "numbers-repaired", "entities-lost", "entity-damaged", "block-missing"}
