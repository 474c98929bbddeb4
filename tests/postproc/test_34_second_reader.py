"""Hand programs move as a second, simple reader of this suite's own says, move by move.

It knows neither subprograms nor U and W beside the cycle nor a zero told by G50, so programs with those are left out,
and it takes blocks without remarks, blanks and skip marks. The back-off of the one-block cycle is the control's.
"""

import re

from support import second_opinion
from support.handstyle import hand_programs

from postproc import find_dialect, interpret, parse_program
from postproc.interpreter import FAR_HOME

BEYOND = re.compile(r"M98|G50[^\n]*X|X[^\n]*G50|G75[^\n]*[UW]|[UW][^\n]*G75|M4[12]|M0?6")


def bare(text):
    """The words alone, upper case, line by line."""
    lines = (re.sub(r";.*|\([^()]*\)|\s", "", line).lstrip("/") for line in text.upper().splitlines())
    return "\n".join(lines)


def places(moves, cuts_only):
    """Ends of the moves as (rapid, radius, z), rests left out."""
    return [
        (rapid, round(r, 6), round(z, 6)) for rapid, r, z, rests in moves if not rests and not (rapid and cuts_only)
    ]


def test_moves_agree():
    compared = 0
    for program in hand_programs(350, seed=5):
        text = bare(program.text)
        if BEYOND.search(text):
            continue
        run = interpret(parse_program(program.text), find_dialect(program.dialect), program.units)
        per = run.increments.per_length
        ours = [
            (m.kind == "rapid", m.x1 / 2 / per, m.z1 / per, (m.x0, m.z0) == (m.x1, m.z1))
            for m in run.motions
            if max(m.x1, m.z1) < FAR_HOME[0]
        ]
        legs = second_opinion.run(text)
        theirs = [(leg.rapid, *leg.b, leg.a == leg.b) for leg in legs if max(leg.b) < second_opinion.FAR_OUT]
        cuts_only = program.dialect == "one-block"
        assert places(ours, cuts_only) == places(theirs, cuts_only), (program.name, program.text)
        compared += 1
    assert compared > 150
