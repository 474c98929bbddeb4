"""Plan <-> program: dialects that spell steps, the reader that takes a program back, and the metal left.

Words of this room
    block       one line of a program            word        an address letter with its number
    act         what a G word asks for           switch      what an M word asks for
    modal       in force until another word      dialect     how one family of controls spells all this
    cycle       G75: pecks one groove or a row   peck        radial depth between two retracts
    shift       from groove to groove along z    retract     radial back-off after a peck
    relief      a step aside at the floor        clamp       highest rev/min under constant surface speed
    run         all that a program does          motion      one straight move of the reference edge
    bench       the part in simulation           metal       what is left of one side while it is cut
    side        outside, inside or face          overlay     what is left, laid over what is drawn
    foreign     of a tool that is no grooving insert: a cycle that turns, threads or drills, let by and not followed
    recess      where the cut lies below a land  target      a drawn groove with what it may be off
    watch       looks at every move on its way   verdict     all grooves matched, and every finding

Everything is counted in whole least increments (`planner.increment`), x on the diameter.
"""

from postproc.cutting.whole_run import cut_profile
from postproc.dialect import Dialect
from postproc.dialects import dialects, find_dialect
from postproc.explaining.explain import ExplainedBlock, ExplainedWord, Explanation, explain
from postproc.explaining.explain_cuts import StraightCut
from postproc.judging.judge import compare_program, judge, laid_over
from postproc.motion import Motion
from postproc.program import Heading, Program
from postproc.reading.guess import guess_dialect
from postproc.reading.interpreter import interpret
from postproc.reading.renaming import parse_as
from postproc.reading.run import CycleCall, Run
from postproc.reading.seconds import run_seconds
from postproc.reading.words import ParsedProgram, parse_program
from postproc.verdict import CutGroove, Match, State, Verdict
from postproc.writing.lowering import lower
from postproc.writing.writer import restart_blocks, write_program

__all__ = [
    "CutGroove",
    "CycleCall",
    "Dialect",
    "ExplainedBlock",
    "ExplainedWord",
    "Explanation",
    "Heading",
    "Match",
    "Motion",
    "ParsedProgram",
    "Program",
    "Run",
    "State",
    "StraightCut",
    "Verdict",
    "compare_program",
    "cut_profile",
    "dialects",
    "explain",
    "find_dialect",
    "guess_dialect",
    "interpret",
    "judge",
    "laid_over",
    "lower",
    "parse_as",
    "parse_program",
    "restart_blocks",
    "run_seconds",
    "write_program",
]
