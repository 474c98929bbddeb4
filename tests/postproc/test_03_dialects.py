"""The registry: ours, those of outside packages, and the sentence for a name that is none."""

import ast
from dataclasses import replace
from importlib.metadata import EntryPoint

import pytest
from support.source import FILES, nodes, text

from extractor.errors import SettingsError
from postproc import dialects, find_dialect
from postproc.dialect import Dialect
from postproc.dialects import BUILT_IN, GROUP, broken, read_dialect
from postproc.reading import table
from postproc.reading.control import Mode
from postproc.reading.table import ORDER, TABLE
from postproc.vocabulary.acts import Act, Switch

TURNED = read_dialect('title = "for tests"\nnumbers.x = "radius"', "turned-about")
NAMELESS = replace(TURNED, name="")
TEXT = 'title = "for tests"'


def entry(attribute, name="outside"):
    return EntryPoint(name, f"{__name__}:{attribute}" if attribute else "no.such.module:x", GROUP)


class Finder:
    """Loads from this very module, which pytest may have imported under any name."""

    def __init__(self, value):
        self.name, self.value, self._loaded = "outside", "some.package:thing", value

    def load(self):
        return self._loaded


def test_ours_by_name():
    assert list(BUILT_IN)[:3] == ["two-block", "one-block", "plunge"]
    assert all(dialect.name == name and dialect.title and dialect.summary for name, dialect in BUILT_IN.items())
    assert list(dialects(())) == list(BUILT_IN)


def test_an_outside_dialect_is_found():
    assert dialects([Finder(TURNED)])["turned-about"] is TURNED


def test_an_outside_dialect_may_be_the_text_of_a_file():
    assert dialects([Finder(TEXT)])["outside"].title == "for tests"


def test_an_installed_package_brings_its_dialect(tmp_path, monkeypatch):
    (tmp_path / "own_words.py").write_text(PACKAGE)
    info = tmp_path / "own_words-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: own-words\nVersion: 1.0\n")
    (info / "entry_points.txt").write_text(f"[{GROUP}]\nown-words = own_words:OWN\nbroken = own_words:NONE\n")
    monkeypatch.syspath_prepend(tmp_path)
    assert find_dialect("own-words").name == "own-words"
    assert list(dialects()) == [*BUILT_IN, "own-words"]
    assert "NONE" in broken()["broken"]
    with pytest.raises(SettingsError, match=r"broken \(own_words:NONE\) can't be loaded"):
        find_dialect("broken")


PACKAGE = """
from postproc.dialect import Dialect
from postproc.dialects import read_dialect

class Own(Dialect):
    pass

OWN = Own(**vars(read_dialect("", "own-words")))
"""


@pytest.mark.parametrize("thing", [NAMELESS, 3, Dialect])
def test_what_is_no_dialect_is_named_and_left_out(thing):
    assert list(dialects([Finder(thing)])) == list(BUILT_IN)
    assert "not an instance of Dialect" in broken([Finder(thing)])["outside"]


def test_a_name_twice_is_named_and_left_out():
    assert dialects([Finder(TURNED), Finder(TURNED)])["turned-about"] is TURNED
    assert "turned-about of some.package:thing is there twice" in broken([Finder(TURNED), Finder(TURNED)])["outside"]


def test_one_that_fails_to_load_is_named_and_takes_nothing_down():
    assert list(dialects([entry(None)])) == list(BUILT_IN)
    assert "outside (no.such.module:x) can't be loaded" in broken([entry(None)])["outside"]


def test_one_that_ends_the_program_when_it_is_loaded_is_left_out_too():
    class Leaving:
        name, value = "outside", "some.package:thing"

        def load(self):
            raise SystemExit(3)

    assert "can't be loaded: SystemExit(3)" in broken([Leaving()])["outside"]
    assert set(dialects([Leaving()])) == set(BUILT_IN)


def test_an_outside_text_with_a_fault_is_named():
    assert "line 1: numbers.x is 'round'" in broken([Finder('numbers.x = "round"')])["outside"]


def test_an_unknown_name_gets_the_nearest():
    with pytest.raises(SettingsError, match=r"'two-blok'; there are two-block, .* Did you mean two-block\?"):
        find_dialect("two-blok")
    with pytest.raises(SettingsError) as caught:
        find_dialect("zzz")
    assert "Did you mean" not in str(caught.value)


@pytest.mark.parametrize("dialect", BUILT_IN.values(), ids=list(BUILT_IN))
def test_tables_are_whole(dialect):
    for act in (Act.RAPID, Act.FEED, Act.METRIC, Act.INCH, Act.SURFACE, Act.RPM, Act.CLAMP_OR_ZERO, Act.PER_REV):
        assert dialect.says(act)
    assert dialect.says(Act.GROOVE) == (dialect.cycle is not None)
    assert set(dialect.g_words.values()) <= set(ORDER)
    assert set(dialect.m_words.values()) <= set(ORDER)


def test_plunge_writes_only_numbers_that_iso_6983_assigns():
    # ISO 6983-1 column of the conformity tables: 00 01 04, 70 71, 90, 92, 94 95, 96 97; M03 to M09, M30.
    dialect = BUILT_IN["plunge"]
    written = {Act.RAPID: 0, Act.FEED: 1, Act.DWELL: 4, Act.INCH: 70, Act.METRIC: 71, Act.ABSOLUTE: 90}
    written |= {Act.CLAMP_OR_ZERO: 92, Act.PER_MINUTE: 94, Act.PER_REV: 95, Act.SURFACE: 96, Act.RPM: 97}
    for act, number in written.items():
        assert dialect.g(act) == f"G{number:02d}"


def diagram():
    """The words that change the state, as lines of a drawing; each leads to one state, from whichever it is said in."""
    leads = {(event, cell.then) for cells in TABLE.values() for event, cell in cells.items() if cell.then}
    assert len(leads) == len(dict(leads))
    order = sorted(leads, key=lambda lead: ORDER[lead[0]])
    return "".join(f"    any state ──{event}──> {mode.name}\n" for event, mode in order)


def test_the_diagram_of_the_states_is_that_of_the_table():
    assert diagram() in table.__doc__


def test_every_state_but_the_end_takes_every_word():
    running = [mode for mode in Mode if mode is not Mode.ENDED]
    assert all(set(TABLE[mode]) | {"a place without a motion word"} == set(ORDER) for mode in running)
    assert not TABLE[Mode.ENDED]


def test_nothing_but_the_table_looks_at_the_state_or_changes_it():
    """By the source: no action reads `mode`, and the walk alone, which looks the cell up, sets it."""
    sets, looks = set(), set()
    for path in (path for path in FILES if path.parts[-2] in ("reading", "actions")):
        for node in (n for n in nodes(text(path)) if isinstance(n, ast.Attribute) and n.attr == "mode"):
            (looks if isinstance(node.ctx, ast.Load) else sets).add(path.name)
    assert sets == {"interpreter.py"}
    assert looks == {"interpreter.py", "events.py"}


@pytest.mark.parametrize(
    ("nth", "offset", "gear"), [(1, "G54", "M40"), (2, "G55", "M41"), (6, "G59", "M45"), (0, 0, 0), (7, 0, 0)]
)
def test_of_several_words_for_one_thing_each_has_its_number(nth, offset, gear):
    one = find_dialect("two-block")
    if offset:
        assert (one.g(Act.WORK_OFFSET, nth), one.m(Switch.GEAR, nth)) == (offset, gear)
    else:
        for ask in (lambda: one.g(Act.WORK_OFFSET, nth), lambda: one.m(Switch.GEAR, nth)):
            with pytest.raises(KeyError):
                ask()
        assert one.written(Act.WORK_OFFSET, nth) == "the word for work offset"


def test_the_first_word_for_a_thing_is_meant_where_none_is_named():
    one = find_dialect("two-block")
    assert (one.g(Act.WORK_OFFSET), one.m(Switch.GEAR), one.written(Act.WORK_OFFSET)) == ("G54", "M40", "G54")


def test_own_words_by_what_they_do():
    one = replace(find_dialect("two-block"), own_switches={68: "chuck clamps", 69: "chuck opens", 70: "chuck clamps"})
    assert (one.own("chuck clamps"), one.own("chuck opens")) == ("M68", "M69")
    with pytest.raises(KeyError):
        one.own("door opens")
    assert one.switch(68) is one.switch(70) is Switch.OWN
    assert one.switch(98) is Switch.CALL


@pytest.mark.parametrize(
    ("text", "mm", "inch"),
    [
        ("", 1000, 10_000),
        ('numbers.x = "radius"', 500, 5_000),  # a step on the radius is two on the diameter
        ("numbers.decimals.mm = 2\nnumbers.decimals.in = 3", 100, 1000),
    ],
)
def test_a_grid_is_as_coarse_as_the_places_that_can_be_said(text, mm, inch):
    one = read_dialect(f'title = "for tests"\n{text}', "grid")
    assert (one.grid("mm").per_length, one.grid("in").per_length) == (mm, inch)
    assert one.grid("mm").per_feed == find_dialect("two-block").grid("mm").per_feed
