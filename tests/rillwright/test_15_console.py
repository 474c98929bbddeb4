"""What the commands print: nothing from a drawing may move the cursor, be taken for markup, or break a line."""

import contextlib
import io
import re
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.forms import findings, form, typed

from rillwright import console, tables
from rillwright.planned import PlannedRecord, answer, block_count, print_comparison
from rillwright.progress import Bar
from rillwright.records.record_part import RecordedPart

START = {"x": 42.0, "z": -13.0}
PLAN = {"operations": [{"grooves": [1, 2], "tool": "T0303", "form": "cycle", "start": START}], "seconds": 24.0}


def test_a_finding_is_one_line_with_all_its_places(capsys):
    finding = {"level": "stop", "code": "x", "message": "a\nb\x1b[2J [red]c", "at": [1.5, 2.0], "line": 12}
    console.print_findings(findings([finding]))
    (line,) = capsys.readouterr().out.splitlines()
    assert line == "stop    x line 12 at (1.5, 2): a b [2J [red]c"


def test_the_weightiest_comes_first(capsys):
    levels = ["note", "stop", "caution", "note"]
    console.print_findings(
        findings([{"level": level, "code": "c", "message": f"m{n}", "at": None} for n, level in enumerate(levels)])
    )
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in lines] == ["stop", "caution", "note", "note"]


def test_a_long_sentence_is_not_folded_where_a_script_reads_it(capsys):
    console.print_findings(findings([{"level": "note", "code": "c", "message": "word " * 100, "at": None}]))
    assert len(capsys.readouterr().out.splitlines()) == 1


def test_a_table_has_no_blanks_at_the_end_of_its_lines(capsys):
    shown = tables.table("name", ">number")
    tables.add_row(shown, "a", 1)
    tables.add_row(shown, "longer", 22)
    tables.print_table(shown)
    assert capsys.readouterr().out == "name    number\na            1\nlonger      22\n"


@pytest.mark.parametrize(
    ("value", "text"),
    [(40.0, "40"), (0.1235, "0.1235"), (1e-9, "0"), (-10.5, "-10.5"), (None, "-"), (1234.00001, "1234")],
)
def test_lengths_are_printed_as_people_write_them(value, text):
    assert console.length(value) == text


def part(**more):
    form = {
        "drawing": {"file": "ring.dxf", "sha256": "00"}, "units": None, "outer_diameter": None, "length": None,
        "grooves": [], "sets": [], "findings": [],
    } | more  # fmt: skip
    return typed(form, RecordedPart)


def test_no_part_is_said_in_words(capsys):
    console.print_part(part())
    assert capsys.readouterr().out == "ring.dxf: no turned part was recognised\n"


def test_a_part_of_unknown_units_says_so(capsys):
    console.print_part(part(outer_diameter=40.0, length=60.0))
    assert capsys.readouterr().out == "ring.dxf: 40 across, 60 long (units unknown), 0 grooves\n"


def record(status, **more):
    program = {"file": "ring.nc", "sha256": "00"}
    form_ = {"status": status, "part": form(part()), "plan": PLAN | {"seconds": 12.4}, "program": program}
    return typed(form_ | more)


def test_the_line_of_a_made_drawing():
    assert console.record_line(record("made")) == "ring.dxf: made ring.nc (2 grooves in 1 operation, 12 s)"
    cautions = [{"level": "caution", "code": "c", "message": "Look."}]
    assert console.record_line(record("made", findings=cautions)).endswith("12 s, 1 caution: see the sheet)")


def test_the_line_of_a_refused_drawing_has_every_reason():
    stops = [{"level": "stop", "code": "c", "message": text} for text in ("One.", "Two.")]
    assert console.record_line(record("refused", findings=stops)) == "ring.dxf: refused: One. Two."
    many = [{"level": "stop", "code": f"c{n}", "message": f"Reason {n}."} for n in range(20)]
    told = "Reason 0. Reason 1. Reason 2. And 17 more reasons: see the sheet."
    assert console.record_line(record("refused", findings=many)) == f"ring.dxf: refused: {told}"
    assert console.why_refused(record("refused", findings=many[:4])).endswith("Reason 2. Reason 3.")


def test_blocks_are_counted_without_frame_and_comments():
    assert block_count("%\nO1\n(A)\n\nG21\n  (B)\nG0 X1. (C)\nM30\n%\n") == 4


def test_two_shops_beside_each_other(capsys):
    plan = PLAN | {"operations": PLAN["operations"] * 2}
    good = {"status": "planned", "shop": "a.toml", "part": {}, "blocks": 20, "plan": plan, "findings": []}
    stop = {"level": "stop", "code": "no-tool", "message": "No insert.", "at": None}
    bad = {"status": "refused", "shop": "b.toml", "part": {}, "findings": [stop]}
    print_comparison([typed(one, PlannedRecord) for one in (good, bad)])
    lines = capsys.readouterr().out.splitlines()
    assert lines[1].split() == ["a.toml", "20", "2", "1", "24.0"]
    assert lines[2].split() == ["b.toml", "-", "-", "-", "-", "refused"]
    assert "No insert." in lines[3]


def test_items_come_through_and_lines_are_said_without_a_terminal(capsys):
    with Bar("drawings") as bar:
        for item in bar.through([1, 2, 3], 3):
            bar.say(f"item\n{item}")
        bar.say("aside", err=True)
    told = capsys.readouterr()
    assert (told.out, told.err) == ("item 1\nitem 2\nitem 3\n", "aside\n")


def test_lines_do_not_run_into_the_bar_on_a_terminal():
    code = "from rillwright.progress import Bar\nwith Bar('drawings') as bar:\n"
    code += "    for item in bar.through([1, 2, 3], 3):\n        bar.say(f'item {item}')\n"
    call = f'{sys.executable} -c "{code}"'
    told = subprocess.run(["script", "-qec", call, "/dev/null"], capture_output=True, text=True, timeout=600).stdout
    assert "drawings" in told
    lines = [
        re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", line).split("\r")[-1] for line in told.replace("\r\n", "\n").split("\n")
    ]
    assert [line for line in lines if line.startswith("item")] == ["item 1", "item 2", "item 3"]


def on_terminal(columns, code):
    """The lines that some code prints on a terminal of so many columns."""
    call = f'export TERM=xterm; unset COLUMNS; stty cols {columns}; {sys.executable} -c "{code}"'
    told = subprocess.run(["script", "-qec", call, "/dev/null"], capture_output=True, text=True, timeout=600).stdout
    return [re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", line).rstrip() for line in told.replace("\r\n", "\n").split("\n")]


TABLE = (
    "from rillwright import tables\n"
    "shown = tables.table('>groove', 'shape', '>Z near', 'remark')\n"
    "tables.add_row(shown, 1, 'rectangular', '-123.4567', 'a remark of several words that is long')\n"
    "tables.print_table(shown)\n"
)


@pytest.mark.parametrize("columns", [200, 80, 50, 20])
def test_no_number_is_ever_cut_on_a_narrow_terminal(columns):
    text = "\n".join(on_terminal(columns, TABLE))
    assert "-123.4567" in text
    assert "rectangular" in text
    assert "…" not in text
    assert " ".join(text.split()).count("several") == 1


def test_a_row_that_does_not_fit_keeps_each_figure_with_its_name():
    lines = on_terminal(50, TABLE)
    assert any("Z near -123.4567" in line for line in lines)
    assert all(len(line) <= 50 for line in lines)


WORDS = st.lists(st.text("xyzq-.", min_size=1, max_size=30), max_size=30)


@given(st.lists(st.tuples(st.integers(1, 9999), WORDS, WORDS)), st.integers(24, 200))
def test_blocks_beside_their_sentences_lose_no_letter_at_any_width(rows, width):
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        tables.print_beside([(str(n), " ".join(a), " ".join(b)) for n, a, b in rows], width, ("line", "block", "means"))
    for letter in "xyzq-.":
        assert out.getvalue().count(letter) == sum(word.count(letter) for _, a, b in rows for word in [*a, *b])
    assert all(len(line) <= max(width, 40) for line in out.getvalue().splitlines())


def test_where_a_groove_is_is_told_where_not_all_are_outside(capsys):
    sizes = dict.fromkeys(
        ("z_near", "z_far", "width", "mouth_diameter", "floor_diameter", "depth", "corner_radius"), 1.0
    )
    groove = sizes | {"id": 1, "where": "outside", "shape": "rectangular", "tolerances": {}}
    console.print_part(part(outer_diameter=40.0, length=60.0, grooves=[groove]))
    assert "outside" not in capsys.readouterr().out
    console.print_part(part(outer_diameter=40.0, length=60.0, grooves=[groove, groove | {"id": 2, "where": "inside"}]))
    assert "inside" in capsys.readouterr().out


def test_grooves_that_share_their_tolerances_share_a_line(capsys):
    sizes = dict.fromkeys(
        ("z_near", "z_far", "width", "mouth_diameter", "floor_diameter", "depth", "corner_radius"), 1.0
    )
    groove = sizes | {"where": "outside", "shape": "rectangular", "tolerances": {"width": [0.0, 0.1]}}
    plain = groove | {"id": 3, "tolerances": {}}
    grooves = [groove | {"id": 1}, groove | {"id": 2}, plain]
    console.print_part(part(outer_diameter=40.0, length=60.0, grooves=grooves))
    told = [line for line in capsys.readouterr().out.splitlines() if line.startswith("tolerances")]
    assert told == ["tolerances of grooves 1, 2: width +0/+0.1"]


def stop(number, message):
    return {"level": "stop", "code": "c", "message": message.format(number), "at": None, "groove": number}


def test_what_holds_for_several_grooves_is_said_once():
    alike = [stop(n, "Groove {0} at Z-" + f"{n}.5 is too deep.") for n in (1, 2, 4)]
    told = console.together(findings([*alike, stop(3, "Groove {0} at Z-9 is too narrow.")]))
    assert [one.message for one in told] == [
        "Groove 1 at Z-1.5 is too deep. The same holds for grooves 2, 4.",
        "Groove 3 at Z-9 is too narrow.",
    ]
    assert tuple(console.together(findings(alike[:1]))) == findings(alike[:1])


def test_an_accepted_code_that_nothing_has_is_told(capsys):
    told = findings([{"level": "note", "code": code, "message": "."} for code in "ab"])
    console.tell_unused({"a", "b", "c\n"}, told)
    assert capsys.readouterr().err == "--accept c : there is no finding of that code here; was another meant?\n"
    placed = findings([{"level": "caution", "code": "a", "message": ".", "at": [1.0, 2.0], "groove": 3}])
    console.tell_unused({"a", "a@1.00,2", "a@3", "a@1,2.002"}, placed)
    told = [line.split(":")[0] for line in capsys.readouterr().err.splitlines()]
    assert told == ["--accept a@1,2.002", "--accept a@3"]


SHOPS = [
    ((20, 24.0), (25, 30.0), "a.toml needs 5 blocks fewer and takes 6.0 s less."),
    ((21, 24.0), (20, 20.0), "b.toml needs 1 block fewer and takes 4.0 s less."),
    ((20, 24.0), (20, 24.0), "Both need as many blocks and take as long."),
    ((20, 24.0), (20, 23.0), "Both need as many blocks, and b.toml takes 1.0 s less."),
    ((20, 24.0), (25, 23.0), "a.toml needs 5 blocks fewer, but b.toml takes 1.0 s less."),
    ((20, 24.0), (25, 24.0), "a.toml needs 5 blocks fewer, and both take as long."),
    ((20, 24.0), None, "Only a.toml can make it."),
    (None, None, "Neither shop can make it."),
]


@pytest.mark.parametrize(("one", "other", "sentence"), SHOPS)
def test_which_shop_needs_less_is_said_in_a_sentence(one, other, sentence):
    plans = [
        {"status": "planned", "shop": shop, "part": {}, "blocks": got[0], "plan": PLAN | {"seconds": got[1]}}
        if got
        else {"status": "refused", "shop": shop, "part": {}}
        for shop, got in (("a.toml", one), ("b.toml", other))
    ]
    assert answer([typed(one, PlannedRecord) for one in plans]) == sentence
