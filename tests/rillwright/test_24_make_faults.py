"""Each change of a file that `make` does, failed, cut and lost in turn: the folder holds the old files or the new ones.

The way of databases' own tests. The drawings are worked out once; only what is done with files is done again.
"""

import itertools
import json
import shutil

import pytest
from click.testing import CliRunner
from support.drawings import draw_ring
from support.faulty_files import HOW, FaultyFiles
from support.remembered import remembered

from rillwright.atomic import TEMPORARY
from rillwright.cli import main

NARROW, DEEP = ((-10, -13, 34),), ((-10, -13, 32),)
EDITED = b"%\nO0001 (EDITED BY HAND)\nM30\n%\n"


@pytest.fixture(scope="module")
def drawings(tmp_path_factory):
    """A folder for each of three drawings, all called ring.dxf."""
    folder = tmp_path_factory.mktemp("drawings")
    for name, grooves, units in (("narrow", NARROW, 4), ("deep", DEEP, 4), ("unitless", NARROW, 0)):
        (folder / name).mkdir()
        draw_ring(folder / name / "ring.dxf", grooves, insunits=units)
    with remembered():
        yield folder


def drawn(drawings, which, home):
    """Put one of the drawings where the drawing lies."""
    (home / "ring.dxf").write_bytes((drawings / which / "ring.dxf").read_bytes())


def made(home):
    """A run of `make` in this process."""
    return CliRunner().invoke(main, ["make", str(home / "ring.dxf"), "--out", str(home / "out")])


def files(folder):
    return {p.name: p.read_bytes() for p in folder.iterdir()} if folder.is_dir() else {}


SITUATIONS = {
    "first": ([], "deep"),
    "the same again": (["narrow"], "narrow"),
    "revised": (["narrow"], "deep"),
    "refused now": (["narrow"], "unitless"),
    "refused after another refusal": (["narrow", "unitless", "deep"], "unitless"),
    "edited, then revised": (["narrow", EDITED], "deep"),
    "edited, then refused": (["narrow", EDITED], "unitless"),
}


def prepared(drawings, before, home):
    """The folder as the runs before left it."""
    for step in before:
        if isinstance(step, bytes):
            (home / "out" / "ring.nc").write_bytes(step)
        else:
            drawn(drawings, step, home)
            assert not made(home).exception or step == "unitless"


@pytest.mark.parametrize("situation", SITUATIONS)
def test_every_change_of_a_file_that_goes_wrong(drawings, tmp_path, situation):
    before, now = SITUATIONS[situation]
    start, home = tmp_path / "start", tmp_path / "home"
    (start / "out").mkdir(parents=True)
    prepared(drawings, before, start)
    drawn(drawings, now, start)
    old = files(start / "out")
    shutil.copytree(start, home)
    with FaultyFiles(home) as counted:
        status = made(home).exit_code
    new = files(home / "out")
    assert status == (1 if now == "unitless" else 0)
    for how, at in itertools.product(HOW, range(len(counted.done))):
        shutil.rmtree(home)
        shutil.copytree(start, home)
        with FaultyFiles(home, at, how) as faulty:
            run = made(home)
        assert faulty.struck == counted.done[at]
        holds(files(home / "out"), old, new, faulty)
        if how == "fails":
            says(run, status, faulty, files(home / "out"), old, new)
        elif at % 2:
            faulty.lose_power()
            holds(files(home / "out"), old, new, faulty)
        with FaultyFiles(home):
            assert made(home).exit_code == status
        mended(files(home / "out"), old, new)


def holds(now, old, new, faulty):
    """Each file is an old one or a new one, whole; a program lies beside its own sheet and record or none."""
    for name, data in now.items():
        if not name.startswith(TEMPORARY):
            assert data in [*old.values(), *new.values()], f"{name} is neither old nor new: {faulty.struck}"
    for kind in (old, new):
        program = kind.get("ring.nc")
        if program is not None and now.get("ring.nc") == program and old.get("ring.nc") != new.get("ring.nc"):
            beside = [kind.get("ring.html"), kind.get("ring.json")]
            assert [now.get("ring.html"), now.get("ring.json")] == beside, f"beside another's sheet: {faulty.struck}"
    assert EDITED not in old.values() or EDITED in now.values(), f"the edited program is lost: {faulty.struck}"
    assert faulty.how != "fails" or not [name for name in now if name.startswith(TEMPORARY)], faulty.struck


def says(run, status, faulty, now, old, new):
    """A failed call ends in one sentence and 1, or doesn't matter; one on the way there changes nothing at all."""
    if run.exit_code == status and now == new:
        assert faulty.struck == "fsync of folder" or faulty.struck == "unlink"
        return
    assert run.exit_code == 1
    assert isinstance(run.exception, SystemExit)
    said = run.stderr.splitlines()
    assert len(said) == 1, said
    assert "No space left on device" in said[0]
    if faulty.struck in ("create", "write", "fsync"):
        # A full disk is met before anything is changed; only a program that may not be run is out of the way.
        usual = {name for name in ("ring.html", "ring.json", "ring.nc") if name != "ring.nc" or name in new}
        assert {name: now.get(name) for name in usual} == {name: old.get(name) for name in usual}


def mended(now, old, new):
    """The next run makes what the first should have made; a program set aside keeps its bytes, whatever its name."""
    assert now.get("ring.nc") == new.get("ring.nc")
    assert b"</html>" in now["ring.html"]
    told, meant = json.loads(now["ring.json"]), json.loads(new["ring.json"])
    assert (told["status"], told["program"]) == (meant["status"], meant["program"])
    assert {data for name, data in new.items() if ".nc." in name} <= set(now.values())
    assert EDITED not in old.values() or EDITED in now.values()
