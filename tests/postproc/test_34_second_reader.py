"""Hand programs move as a second, simple reader of this suite's own says, move by move.

It knows neither subprograms, nor G91, nor U and W beside the cycle, nor a zero told by G50, so programs with those are
left out, and it takes blocks without remarks, blanks and skip marks. The one-block
cycle backs off by what the control has.
"""

import math
import random
import re

from support import second_opinion
from support.hands.style import hand_programs
from support.programs import run_of

from extractor.finding import stopped
from postproc import find_dialect, guess_dialect, interpret, parse_program
from postproc.reading.interpreter import FAR_HOME

BEYOND = re.compile(r"M98|G91|G50[^\n]*X|X[^\n]*G50|G75[^\n]*[UW]|[UW][^\n]*G75|M4[12]|M0?6")


def bare(text):
    """The words alone, upper case, line by line."""
    lines = (re.sub(r";.*|\([^()]*\)|\s", "", line).lstrip("/") for line in text.upper().splitlines())
    return "\n".join(lines)


def places(moves, cuts_only):
    """Ends of the moves as (rapid, radius, z), rests left out."""
    kept = [move for move in moves if math.dist(move[1], move[2]) > 1e-9 and not (move[0] and cuts_only)]
    return [(rapid, round(end[0], 6), round(end[1], 6)) for rapid, _, end in kept]


def ours_of(run):
    """Our moves as (rapid, (radius, z) of the start, of the end), without those to the reference point."""
    per = run.increments.per_length
    return [
        (m.kind == "rapid", (m.x0 / 2 / per, m.z0 / per), (m.x1 / 2 / per, m.z1 / per))
        for m in run.motions
        if max(m.x1, m.z1) < FAR_HOME[0] / 2
    ]


def theirs_of(text):
    """Their moves in the same form."""
    far = second_opinion.FAR_OUT / 2
    return [(leg.rapid, leg.a, leg.b) for leg in second_opinion.run(text) if max(leg.b) < far]


def comparable(count, seed):
    """Hand programs that the second reader understands, each with its bare text."""
    pairs = ((program, bare(program.text)) for program in hand_programs(count, seed=seed))
    return [(program, text) for program, text in pairs if not BEYOND.search(text)]


def test_moves_agree():
    compared = comparable(160, seed=5)
    assert len(compared) > 60
    for program, text in compared:
        run = run_of(program.text, program.dialect, program.units)
        cuts_only = program.dialect == "one-block"
        assert places(ours_of(run), cuts_only) == places(theirs_of(text), cuts_only), (program.name, program.text)


FIXED = re.compile(r"%|O|M30|M0?2|M99|G28|G50|G92|^$")


def slipped(text, rng):
    """The text with one word lost, signed, renamed or with its point moved, or one line lost, doubled or swapped."""
    lines = text.split("\n")
    at, other = rng.randrange(len(lines)), rng.randrange(len(lines))
    if FIXED.search(lines[at]) or FIXED.search(lines[other]):
        return None
    words = re.findall(r"[A-Z][-+.\d]*", lines[at])
    n = rng.randrange(len(words))
    kind = rng.randrange(7)
    if kind == 0:
        lines[at], lines[other] = lines[other], lines[at]
    elif kind == 1:
        lines.insert(at, lines[other])
    elif kind == 2:
        del lines[at]
    else:
        address, number = words[n][0], words[n][1:]
        change = [
            "",
            address + "-" + number.lstrip("+-"),
            rng.choice("GXZPQIKFSTM") + number,
            words[n].replace(".", ""),
        ]
        words[n] = change[kind - 3]
        lines[at] = "".join(words)
    return "\n".join(lines)


def test_slips_are_told_or_move_as_the_second_reader_moves(monkeypatch):
    """Nobody's slip is read one way here and another way there without a word."""
    monkeypatch.setattr("postproc.reading.log.MOST_MOTIONS", 3_000)
    rng = random.Random(9)
    programs = [pair for pair in comparable(60, seed=11) if len(pair[1]) < 1_500]
    told = alike = 0
    for _ in range(320):
        program, text = rng.choice(programs)
        mutant = slipped(text, rng)
        if mutant is None:
            continue
        parsed = parse_program(mutant)
        run = interpret(parsed, guess_dialect(parsed) or find_dialect(program.dialect), program.units)
        ended = any(finding.code == "endless" for finding in run.findings)
        if stopped(run.findings) or ended or any(call.relief for call in run.cycles):
            told += 1
            continue
        try:
            theirs = theirs_of(mutant)
        except (second_opinion.Lost, KeyError):
            continue
        cuts_only = run.dialect == "one-block"
        assert places(ours_of(run), cuts_only) == places(theirs, cuts_only), (program.name, mutant)
        alike += 1
    assert told > 30
    assert alike > 60
