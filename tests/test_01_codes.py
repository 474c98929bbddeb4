"""The register of findings: whole, without a dead entry, and the only place where a code is spelt."""

import ast
import re
from collections import defaultdict
from dataclasses import replace

import pytest
from support.source import ROOT, nodes, text

from extractor.codes import DrawingCode
from extractor.finding import CAUTION, NOTE, OPTIONS, STOP, Finding, Level, accept, entry, key_of, same_key
from planner.codes import PlanCode
from postproc.codes import ProgramCode
from rillwright.codes import REGISTER, JobCode

REGISTERS = {"extractor": DrawingCode, "planner": PlanCode, "postproc": ProgramCode, "rillwright": JobCode}
NAMES = {kind.__name__: kind for kind in REGISTERS.values()}
BY_METHOD = {"stop": Level.STOP, "_stop": Level.STOP, "caution": Level.CAUTION, "_caution": Level.CAUTION}
BY_METHOD |= {"note": Level.NOTE, "unreadable": Level.STOP, "Failure": Level.STOP}
TAKE_A_CODE = {*BY_METHOD, "Finding", "Remark", "told", "has"}


def trees(room):
    """The syntax tree of every file of a room but its register, as its nodes."""
    return [nodes(text(path)) for path in sorted((ROOT / room).rglob("*.py")) if path.name != "codes.py"]


def called(node):
    """The name of what a call calls, with `a if b else c` as both."""
    func = node.func
    parts = [func.body, func.orelse] if isinstance(func, ast.IfExp) else [func]
    return [getattr(part, "attr", getattr(part, "id", "")) for part in parts]


def code_of(node):
    """The member that an expression names, None if it names none."""
    if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in NAMES:
        return NAMES[node.value.id][node.attr]
    return None


def levels_of(node):
    """The levels that an expression names."""
    return {Level[n.attr] for n in ast.walk(node) if isinstance(n, ast.Attribute) and ast.unparse(n.value) == "Level"}


def used(tree):
    """Every member that a tree names."""
    return {code for node in tree if (code := code_of(node)) is not None}


def made(tree):
    """Each (code, level) that a tree makes in so many words."""
    for node in tree:
        if isinstance(node, ast.Call) and (code := next(filter(None, map(code_of, node.args)), None)) is not None:
            named = {BY_METHOD[name] for name in called(node) if name in BY_METHOD}
            yield from ((code, level) for level in named or levels_of(node))
        elif isinstance(node, ast.Tuple) and len(node.elts) > 1 and (code := code_of(node.elts[1])) is not None:
            yield from ((code, level) for level in levels_of(node.elts[0]))
        elif isinstance(node, ast.Dict):
            for key, value in zip(node.keys, node.values, strict=True):
                if (code := code_of(key)) is not None:
                    yield from ((code, level) for level in levels_of(value))


def literals(tree):
    """Codes that a tree spells: as text where a code is taken, or anywhere if it is no plain word."""
    said = {id(node.value) for node in tree if isinstance(node, ast.Expr)}
    for node in tree:
        if isinstance(node, ast.Call) and TAKE_A_CODE & {*called(node)}:
            yield from (arg.value for arg in node.args if isinstance(arg, ast.Constant) and arg.value in REGISTER)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and "-" in node.value:
            yield from [node.value] if node.value in REGISTER and id(node) not in said else []


@pytest.mark.parametrize("room", REGISTERS)
def test_no_code_is_spelt_outside_its_register(room):
    assert [code for tree in trees(room) for code in literals(tree)] == []


@pytest.mark.parametrize("room", REGISTERS)
def test_no_entry_is_dead(room):
    """A code stands in the register of the lowest room that makes it."""
    named = {code for tree in trees(room) for code in used(tree)}
    assert set(REGISTERS[room]) - named == set()
    assert {code.room for code in REGISTERS[room]} == {room}


def asked_for(source):
    """The codes that a test's text has as strings, alone or with a place or another code behind them, or by name."""
    spelt = re.findall(r"""(?<=["'|, ])[a-z\d]+(?:-[a-z\d]+)*(?=["'|,@ ])""", source)
    return {*spelt, *(name.lower().replace("_", "-") for name in re.findall(r"Code\.([A-Z\d_]+)", source))}


def test_every_code_is_asked_for_in_a_test():
    asked = {code for path in (ROOT / "tests").rglob("*.py") for code in asked_for(text(path))}
    assert REGISTER.keys() - asked == set()
    made_up = "told('made-up', PlanCode.SO_TOO, \"one@1\", 'either-so|or-so') # in-remark"
    assert asked_for(made_up) == {"made-up", "so-too", "one", "either-so", "or-so"}


def test_every_level_made_in_so_many_words_is_registered():
    found = [pair for room in REGISTERS for tree in trees(room) for pair in made(tree)]
    assert len(found) > len(REGISTER)
    assert [(code, level) for code, level in found if level not in code.made] == []


# Codes whose level is worked out where they are made, or that are made again with another one.
WORKED_OUT = {
    DrawingCode.DIMENSION_CONTRADICTS: "a stop, a caution where the dimension is tied by its value alone",
    DrawingCode.UNITS_WEIGHED: "a note where something says the units outright, else a caution",
    ProgramCode.INSERT_UNKNOWN: "a stop for compare, a note for explain, which judges nothing",
    ProgramCode.WORDS_IN_REMARK: "a caution, and a stop where there are too many to list",
}


def test_no_second_level_is_registered_that_nothing_makes():
    found = defaultdict(set)
    for code, level in (pair for room in REGISTERS for tree in trees(room) for pair in made(tree)):
        found[code].add(level)
    idle = {code for code in REGISTER.values() if len(code.made) > 1 and code.made - found[code]}
    assert idle == set(WORKED_OUT)


def test_the_checks_can_fail():
    spelt = nodes('log.stop("arc", "x")\nif finding.code == "no-moves":\n    pass\nnote = {"arc": 1}')
    assert sorted(literals(spelt)) == ["arc", "no-moves"]
    tree = nodes(
        "(book.stop if bad else book.caution)(ProgramCode.ARC, 1)\n"
        "yield_ = Level.NOTE, PlanCode.ORDER, 'x'\n"
        "Finding(Level.STOP if bad else Level.NOTE, DrawingCode.THREAD, 'x')\n"
        "TOLD = {DrawingCode.KNURL: (Level.STOP, 'x')}"
    )
    assert set(made(tree)) == {
        (ProgramCode.ARC, Level.STOP),
        (ProgramCode.ARC, Level.CAUTION),
        (PlanCode.ORDER, Level.NOTE),
        (DrawingCode.THREAD, Level.STOP),
        (DrawingCode.THREAD, Level.NOTE),
        (DrawingCode.KNURL, Level.STOP),
    }
    assert used(tree) == {ProgramCode.ARC, PlanCode.ORDER, DrawingCode.THREAD, DrawingCode.KNURL}


def test_one_code_one_entry():
    assert len(REGISTER) == sum(len(kind) for kind in REGISTERS.values())


@pytest.mark.parametrize("code", REGISTER.values(), ids=str)
def test_an_entry_says_what_to_do(code):
    assert code.name == str(code).upper().replace("-", "_")
    assert code.remedy[0].isupper()
    assert code.remedy.isprintable()
    assert code.remedy.endswith(".")
    assert ". " not in code.remedy
    for answer in code.answers:
        assert answer == "accept" or f"--{answer}" in code.remedy


def test_a_code_is_its_string():
    assert DrawingCode.SEVERAL_PARTS == "several-parts"
    assert f"{DrawingCode.SEVERAL_PARTS}" == "several-parts"
    assert {DrawingCode.SEVERAL_PARTS: 1}["several-parts"] == 1


@pytest.mark.parametrize(
    ("levels", "remedy", "answers", "fault"),
    [
        (frozenset(), "Look.", (), "a level and a remedy"),
        (STOP, "Look", (), "a level and a remedy"),
        (STOP, "", (), "a level and a remedy"),
        (CAUTION | NOTE, "Look.", ("accept",), "only a stop can be accepted"),
    ],
    ids=["no level", "no sentence", "no remedy", "nothing to accept"],
)
def test_an_entry_that_says_too_little_is_refused(levels, remedy, answers, fault):
    with pytest.raises(ValueError, match=fault):
        entry(levels, remedy, answers)


@pytest.mark.parametrize(
    ("level", "code"), [(Level.NOTE, DrawingCode.SEVERAL_PARTS), (Level.STOP, "several-parts"), (Level.STOP, "")]
)
def test_a_finding_is_made_with_a_registered_code_and_level(level, code):
    with pytest.raises(ValueError, match="registered"):
        Finding(level, code, "There are two.")


ACCEPTABLE = Finding(Level.STOP, DrawingCode.OUTLINE_DOUBTFUL, "It is too wide.", (1.0, 2.0))
NEVER = Finding(Level.STOP, PlanCode.JAWS, "The jaws are near.", groove=2)


def test_a_stop_that_the_user_answers_for_is_a_caution():
    (told,) = accept([ACCEPTABLE], ["outline-doubtful", "nonsense"])
    assert (told.level, told.at) == (Level.CAUTION, (1.0, 2.0))
    assert told.message == "It is too wide. Accepted by the user."
    assert ACCEPTABLE.code.acceptable


HERE, THERE = ((x, 20.0) for x in (-11.5, -19.5))
WIDTHS = [Finding(Level.STOP, DrawingCode.DIMENSION_CONTRADICTS, f"It prints {n}.", at, groove=n)
          for n, at in enumerate((HERE, THERE), 1)]  # fmt: skip
ONE, OTHER = "dimension-contradicts@-11.5,20", "dimension-contradicts@-19.5,20"


@pytest.mark.parametrize(
    ("codes", "left"),
    [
        ((), [True, True]),
        ((ONE,), [False, True]),
        ((OTHER,), [True, False]),
        ((ONE, OTHER), [False, False]),
        (("dimension-contradicts",), [True, True]),
        ((ONE, "dimension-contradicts"), [False, False]),
        (("dimension-contradicts@ -11.50, 20.0004",), [False, True]),
        (("dimension-contradicts@-11.5006,20",), [True, True]),
        (("dimension-contradicts@1",), [True, True]),
        (("dimension-contradicts@", "dimension-contradicts@x", "@"), [True, True]),
    ],
)
def test_of_several_stops_of_one_code_each_is_answered_for_by_its_place(codes, left):
    told = accept(WIDTHS, codes)
    assert [f.stops for f in told] == left
    asked = [f.message for f in told if f.stops]
    bare = "dimension-contradicts" in codes
    assert all(("2 stops are dimension-contradicts; this one alone is" in words) is bare for words in asked)
    assert (
        not bare
        or len(asked) < 2
        or [words.endswith(f" --accept {k}.") for words, k in zip(asked, (ONE, OTHER), strict=True)] == [True, True]
    )


@pytest.mark.parametrize("code", [DrawingCode.OVERHANG, PlanCode.RECESS_NOT_PLANNED, PlanCode.CORNER_SMALLER])
def test_what_is_said_of_several_grooves_alike_is_answered_for_at_once_or_for_each(code):
    stops = [Finding(Level.STOP, code, f"It is {n}.", groove=n) for n in (1, 2)]
    assert [f.stops for f in accept(stops, [str(code)])] == [False, False]
    assert [f.stops for f in accept(stops, [f"{code}@2"])] == [True, False]


def test_stops_at_one_place_or_at_none_are_answered_for_together():
    stops = [replace(WIDTHS[0], message=words) for words in ("It prints 4.", "It prints 5.")]
    assert not any(f.stops for f in accept(stops, ["dimension-contradicts"]))
    nowhere = [replace(one, at=None, groove=None) for one in stops]
    assert [f.stops for f in accept([*nowhere, WIDTHS[1]], ["dimension-contradicts"])] == [False, False, True]


def test_a_key_has_the_place_to_a_thousandth():
    assert key_of("a", (12.34567, -0.0001), 3) == "a@12.346,0"
    assert (key_of("a", None, 3), key_of("a", None, None)) == ("a@3", "a")
    assert [same_key(k) for k in (" a @ 1.0 , 2", "a", "a@b", "a@nan")][:3] == ["a@1,2", "a", "a@b"]


def test_a_stop_that_nobody_asked_about_stays_as_it_is():
    findings = (ACCEPTABLE, NEVER, Finding(Level.CAUTION, PlanCode.TAILSTOCK, "See to it."))
    assert accept(findings, ["tailstock", "nonsense"]) == findings


def test_a_stop_that_can_not_be_accepted_says_so():
    (told,) = accept([NEVER], ["jaws"])
    assert (told.level, told.groove) == (Level.STOP, 2)
    assert told.message == "The jaws are near. It can't be accepted."
    assert told.stops
    assert not told.code.acceptable


def test_without_a_part_a_stop_stays_and_names_the_option_that_answers_it():
    (told,) = accept([ACCEPTABLE], ["outline-doubtful"], part=False)
    assert told.stops
    assert told.message == "It is too wide. It can't be accepted while no part is read; answer it with --at X,Y."


def test_every_answer_but_accepting_has_its_option():
    answers = {answer for code in REGISTER.values() for answer in code.answers}
    assert answers == {*OPTIONS, "accept"}


def test_nothing_in_a_program_can_be_accepted():
    """A stop in a program says that it is unsafe, wrong or can't be judged: no user can answer for that."""
    assert [code for code in ProgramCode if code.acceptable] == []
    assert not DrawingCode.UNITS_UNKNOWN.acceptable
