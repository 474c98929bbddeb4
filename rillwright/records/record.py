"""The record of one drawing as a value: what was recognised, planned, written and verified.

The names of fields are those of the JSON that scripts rely on (schema 1): add to them, take none away. Lengths are in
the drawing's units; radii are radii and diameters diameters, as named. A field with a default may be missing from what
is read, so that older records are read too. `recording` makes these values, `record_file` reads them.
"""

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from extractor.part import Frame, ProfilePoints, Units
from extractor.values import SPARE, dataclass
from planner.plan import Form
from planner.shop import Machine, Material, Reference, Tool
from planner.steps import Spindle
from postproc.verdict import Followed, Match
from rillwright.records.jsonform import LAID_OPEN
from rillwright.records.record_part import SCHEMA, AnswerValue, RecordedFinding, RecordedPart

Move = tuple[int, int, int, int, int, int, int]
"""Line, index of the tool, 1 at feed and 0 at rapid, then x (a diameter) and z of both ends, in counts."""


@dataclass(frozen=True, kw_only=True)
class StartPoint:
    """Where a first cut begins; x is a diameter."""

    x: float
    z: float


@dataclass(frozen=True, kw_only=True)
class RecordedRestart:
    """The blocks from which an operation is restarted at one of its grooves."""

    groove: int
    blocks: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class RecordedOperation:
    """One run of one tool: its word, why it is so, and which edge of the insert its places are told by.

    `contour`: it follows the groove's line and does not just plunge. `restarts`: one a groove, if a program was made.
    """

    grooves: tuple[int, ...]
    tool: str
    form: Form
    start: StartPoint
    seconds: float = 0.0
    why: tuple[str, ...] = ()
    reference: Reference | None = None
    insert_width: float | None = None
    feeds: tuple[float, ...] = ()
    pecks: tuple[float, ...] = ()
    contour: bool = False
    restarts: tuple[RecordedRestart, ...] | None = field(default=None, metadata=SPARE)


@dataclass(frozen=True, kw_only=True)
class RecordedPlan:
    """The operations in the order in which they are cut; `left_out` are the grooves that none of them cuts."""

    operations: tuple[RecordedOperation, ...] = ()
    seconds: float
    left_out: tuple[int, ...] = ()


@dataclass(frozen=True, kw_only=True)
class ProgramFile:
    """The program as it was written: its file, the hash of its bytes, its dialect and number."""

    file: str
    sha256: str
    dialect: str = ""
    number: int | None = None


@dataclass(frozen=True, kw_only=True)
class ProgramFinding(RecordedFinding):
    """A finding about a program; it always carries its line, even if that is None."""

    line: int | None = None


@dataclass(frozen=True, kw_only=True)
class Verification:
    """The answer of compare; `followed` is nothing where there was no program to follow."""

    schema: int = SCHEMA
    agree: bool
    grooves: tuple[Match, ...] = ()
    findings: tuple[ProgramFinding, ...] = ()
    followed: Followed | None = field(default=None, metadata=SPARE)

    @property
    def reasons(self) -> tuple[str, ...]:
        """The sentences that say why the program is not to be run."""
        return tuple(one.message for one in self.findings if one.stops)


@dataclass(frozen=True, kw_only=True)
class RecordedRun:
    """What the run was told beside the drawing: the shop file's name, changes to it, answers about the drawing."""

    shop: str = ""
    changes: tuple[str, ...] = ()
    reading: Mapping[str, AnswerValue] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class RecordedAnswer:
    """What an answers file said to one question, and the name of that file."""

    value: AnswerValue
    file: str


@dataclass(frozen=True, kw_only=True)
class RecordedTool:
    """A turret station in use: its insert, the lower side of that, and what the plan asks of it.

    `edge_points` run from the lower flank up, along the width and above the edge, from the point that the offset sets.
    `spindle` is the step that starts it; the insert's own field of that name is not in a record.
    """

    insert: Tool = field(metadata=LAID_OPEN)
    name: str
    edge_points: ProfilePoints = ()
    grooves: tuple[int, ...] = ()
    feeds: tuple[float, ...] = ()
    spindle: Spindle | None = None
    clamp: int | None = None

    @property
    def edge(self) -> ProfilePoints:
        """The same points; of one whose edge is not told those of a plain square one."""
        left = 0.0 if self.insert.reference == "far" else -self.insert.width
        return self.edge_points or ((left, 0.0), (left + self.insert.width, 0.0))


@dataclass(frozen=True, kw_only=True)
class GrippedBar:
    """What the jaws hold of the part: a length, on a diameter."""

    length: float
    diameter: float


@dataclass(frozen=True, kw_only=True)
class RecordedSetup:
    """Machine, material, and the tools that the plan uses; `built_in` names what no shop file gave."""

    units: Units
    machine: Machine
    material: Material
    built_in: tuple[str, ...] = ()
    tools: tuple[RecordedTool, ...] = ()
    in_jaws: GrippedBar | None = field(default=None, metadata=SPARE)


@dataclass(frozen=True, kw_only=True)
class RecordedProfile:
    """The profile, z and radius front to back, with grooves and without, its bore, and its place on the sheet."""

    outline: ProfilePoints
    lands: ProfilePoints
    bore: ProfilePoints | None = None
    frame: Frame | None = None

    def __post_init__(self) -> None:
        """Refuse what has no length."""
        if len(self.outline) < 2 or len(self.lands) < 2 or (self.bore is not None and len(self.bore) < 2):
            raise ValueError("a profile has two points or more")


@dataclass(frozen=True, kw_only=True)
class RecordedPath:
    """The moves of the program as they were read back; `tools` are pairs of station and offset, in their order."""

    per_length: int
    tools: tuple[tuple[int, int], ...]
    moves: tuple[Move, ...] = ()
    left_out: int = 0

    def __post_init__(self) -> None:
        """Refuse moves of a tool that is not there."""
        if self.per_length < 1 or not all(0 <= move[1] < len(self.tools) for move in self.moves):
            raise ValueError("a move is of one of the tools")


@dataclass(frozen=True, kw_only=True)
class DrawnLines:
    """A part of what a refused drawing shows: x0, y0, x1, y1, bulge of each segment; x, y, radius of each circle."""

    segments: tuple[tuple[float, float, float, float, float], ...] = ()
    circles: tuple[tuple[float, float, float], ...] = ()
    left_out: int = 0


@dataclass(frozen=True, kw_only=True)
class HeldProgram:
    """An edited program that stands, held against the drawing; `agree` is nothing where it could not be judged."""

    file: str
    sha256: str
    agree: bool | None = None
    grooves: tuple[Match, ...] = ()
    findings: tuple[ProgramFinding, ...] = ()
    why: str = ""
    message: str = ""


@dataclass(frozen=True, kw_only=True)
class Record:
    """Everything about one drawing; what a refused one did not get to is None.

    `drawn` is there for a refused drawing only, `source` is the way from the results to the drawing, `changes` what
    differs from the revision before.
    """

    schema: int = SCHEMA
    status: Literal["made", "refused"]
    part: RecordedPart
    plan: RecordedPlan | None = None
    program: ProgramFile | None = None
    verification: Verification | None = None
    findings: tuple[RecordedFinding, ...] = ()
    run: RecordedRun | None = None
    answers: Mapping[str, RecordedAnswer] = field(default_factory=dict)
    made_at: str = ""
    tool_version: str = ""
    settings_sha256: str = ""
    picture: RecordedProfile | None = field(default=None, metadata=SPARE)
    setup: RecordedSetup | None = field(default=None, metadata=SPARE)
    path: RecordedPath | None = field(default=None, metadata=SPARE)
    drawn: DrawnLines | None = field(default=None, metadata=SPARE)
    source: str | None = field(default=None, metadata=SPARE)
    edited: HeldProgram | None = field(default=None, metadata=SPARE)
    changes: tuple[str, ...] | None = field(default=None, metadata=SPARE)

    def __post_init__(self) -> None:
        """Refuse one of a program made that does not name it."""
        if self.made and self.program is None:
            raise ValueError("a program that was made has a name")

    @property
    def made(self) -> bool:
        """True if a program left the tool."""
        return self.status == "made"

    @property
    def reasons(self) -> tuple[str, ...]:
        """The sentences that say why there is no program."""
        return tuple(one.message for one in self.findings if one.stops)

    @property
    def operations(self) -> tuple[RecordedOperation, ...]:
        """The operations of the plan, none where there is no plan."""
        return self.plan.operations if self.plan else ()

    @property
    def matches(self) -> tuple[Match, ...]:
        """What the verification found of each groove."""
        return self.verification.grooves if self.verification else ()
