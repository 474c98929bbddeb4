"""Random valid dialects and random plans: written, read back as the very same steps, hardly any refused."""

import random
from collections import Counter

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support.programs import plan_of
from support.tongues import random_tongue

from extractor.errors import ProgramError
from planner.steps import (
    Arc,
    Coolant,
    Cut,
    Dwell,
    GrooveCycle,
    Halt,
    Rapid,
    Remark,
    Spindle,
    SpindleClamp,
    SpindleStop,
    ToolCall,
)
from postproc import Heading, interpret, write_program
from postproc.reading.renaming import parse_as
from postproc.writing.lowering import lower

HEADING = Heading("ring.dxf", "0" * 64)
SEEN: Counter[str] = Counter()
OWN = {"M01": Halt(optional=True), "(END)": Remark("END")}
"""The steps of the lines that a random dialect may have at the end of an operation."""


def random_steps(rng, per_mm):
    """A run over some grooves, in counts of so many a millimetre or what stands for one."""
    top, z = 42 * per_mm + 2 * rng.randrange(100), -13 * per_mm
    steps = [ToolCall(rng.randrange(1, 20), rng.randrange(1, 20)), SpindleClamp(rng.randrange(500, 4000))]
    steps += [Spindle("surface", rng.randrange(60, 300), rng.random() < 0.7), Coolant(True), Rapid(z=z), Rapid(top)]
    for _ in range(rng.randrange(1, 6)):
        floor = top - 2 * rng.randrange(1, 6 * per_mm) - rng.randrange(2)
        peck, retract = rng.randrange(1, 2 * per_mm), rng.randrange(per_mm)
        kind = rng.choice(["row", "single", "single", "cuts", "arc", "odd"])
        if kind == "row":
            shift, number = rng.randrange(1, 9 * per_mm), rng.randrange(2, 6)
            way = rng.choice([1, -1, -1])
            steps.append(
                GrooveCycle(
                    floor_x=floor,
                    end_z=z + way * shift * (number - 1),
                    peck=peck,
                    shift=shift,
                    retract=retract,
                    feed=rng.randrange(1, 3000),
                )
            )
        elif kind == "single":
            like = GrooveCycle(floor_x=floor, end_z=z, peck=peck, shift=0, retract=retract, feed=rng.randrange(1, 3000))
            for place in [z, *(z - rng.randrange(1, 40 * per_mm) for _ in range(rng.randrange(4)))]:
                steps += [
                    Rapid(z=place),
                    GrooveCycle(floor_x=floor, end_z=place, peck=peck, shift=0, retract=retract, feed=like.feed),
                ]
            z = place
        elif kind == "cuts":
            steps += [
                Cut(rng.randrange(1, 3000), x=floor),
                Dwell(rng.randrange(1, 3000)),
                Cut(500, z=z - 77),
                Rapid(top),
            ]
            z -= 77
        elif kind == "arc":
            steps += [Arc(feed=500, x=top - 4_000, z=z - 2_000, radius=2_000, clockwise=rng.random() < 0.5), Rapid(top)]
            z -= 2_000
        else:
            steps += [Halt(rng.random() < 0.5), Remark("as (it) is"), SpindleStop(), Spindle("rpm", 955)]
        z -= rng.randrange(1, 9 * per_mm)
        steps.append(Rapid(z=z))
    return [*steps, Rapid(150 * per_mm), Coolant(False)]


def written_and_read(seed):
    """True if a plan of a seed in the dialect of a seed comes back the same, False if it is refused."""
    rng = random.Random(seed)
    dialect = random_tongue(seed)
    units, per_mm = rng.choice([("mm", 1_000), ("in", 400)])
    plan = plan_of(random_steps(rng, per_mm), units)
    try:
        text = write_program(plan, dialect, HEADING).text
    except ProgramError:
        return False
    run = interpret(parse_as(text, dialect), dialect, units)
    ends = [OWN[line] for line in dialect.frame.operation_end]
    steps = [*plan.before, *(step for one in plan.operations for step in (*one.steps, *ends)), *plan.after]
    assert run.steps == lower(steps, dialect), (seed, text)
    assert not [finding for finding in run.findings if finding.stops], (seed, run.findings)
    return True


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.integers(0, 10**9))
def test_what_is_written_is_read_back(seed):
    SEEN[written_and_read(seed)] += 1


def test_hardly_anything_is_refused():
    made = [written_and_read(seed) for seed in range(100)]
    assert made.count(False) <= 0.1 * len(made)
