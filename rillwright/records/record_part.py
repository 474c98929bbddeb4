"""What was recognised in a drawing as scripts read it: the answer of `read`, and `part` of a record.

The names of fields are those of the JSON (schema 1): add to them, take none away. Lengths are in the drawing's units. A
field with a default may be missing from what is read.
"""

from collections.abc import Mapping
from dataclasses import field

from extractor.distance import Place, Source
from extractor.finding import Level, Point
from extractor.front import FrontEnd
from extractor.part import Deviation, MaterialNote, Shape, Units
from extractor.score import Merit
from extractor.side import SIDES, Side, Where
from extractor.values import SPARE, dataclass

SCHEMA = 1

TURNED_ENDS = {"z_near": "z_far", "z_far": "z_near"}
"""The fields that a record names the other way round for a groove in the back face."""

AnswerValue = bool | float | str | tuple[float, float] | tuple[str, ...]
"""What an option or an answers file may say."""


@dataclass(frozen=True, kw_only=True)
class RecordedChoice:
    """One way to answer a stop: the option, its value, what it is called, and what is read with it."""

    option: str
    value: AnswerValue
    label: str
    reads: str

    def __post_init__(self) -> None:
        """Refuse a place on the sheet that is none."""
        if self.option == "at" and self.at is None:
            raise ValueError("a view is chosen by a point on it")

    @property
    def at(self) -> Point | None:
        """The place on the sheet that is chosen, where the option is one of places."""
        point = self.value if self.option == "at" and isinstance(self.value, tuple) else ()
        return (float(point[0]), float(point[1])) if len(point) == 2 else None


@dataclass(frozen=True, kw_only=True)
class RecordedFinding:
    """A finding; `at` is a place on the sheet, `spots` further ones, `line` one of the program."""

    level: Level
    code: str
    message: str
    at: Point | None = None
    line: int | None = field(default=None, metadata=SPARE)
    groove: int | None = field(default=None, metadata=SPARE)
    spots: tuple[Point, ...] = field(default=(), metadata=SPARE)
    choices: tuple[RecordedChoice, ...] = field(default=(), metadata=SPARE)

    @property
    def stops(self) -> bool:
        """True if it keeps the program from leaving the tool."""
        return self.level is Level.STOP


@dataclass(frozen=True, kw_only=True)
class RecordedGroove:
    """A groove as `extractor.part.Groove` has it; `general_tolerances` names those that come from a general note.

    The edges at its mouth have a chamfer or a radius. Of a face groove `z_near` is its mouth and `z_far` its floor,
    which in the back face lies nearer the front.
    """

    id: int
    where: Where
    shape: Shape = "rectangular"
    z_near: float
    z_far: float
    width: float
    mouth_diameter: float
    floor_diameter: float
    depth: float
    corner_radius: float = 0.0
    edge_chamfer: float = 0.0
    edge_radius: float = field(default=0.0, metadata=SPARE)
    tolerances: Mapping[str, Deviation] = field(default_factory=dict)
    outer_wall_diameter: float | None = field(default=None, metadata=SPARE)
    inner_wall_diameter: float | None = field(default=None, metadata=SPARE)
    printed: tuple[str, ...] = field(default=(), metadata=SPARE)
    general_tolerances: tuple[str, ...] = field(default=(), metadata=SPARE)

    @property
    def side(self) -> Side:
        """The side that it is cut into."""
        return SIDES[self.where]

    @property
    def ends(self) -> tuple[float, float]:
        """The z of both ends, the one nearer the front face first."""
        return max(self.z_near, self.z_far), min(self.z_near, self.z_far)

    @property
    def middle(self) -> float:
        """The z half way between its ends."""
        return (self.z_near + self.z_far) / 2

    @property
    def mid_radius(self) -> float:
        """The radius half way between its mouth and its floor."""
        return (self.mouth_diameter + self.floor_diameter) / 4


@dataclass(frozen=True, kw_only=True)
class RecordedSet:
    """Grooves at one pitch."""

    grooves: tuple[int, ...]
    count: int
    pitch: float

    def __post_init__(self) -> None:
        """Refuse a set of nothing."""
        if not self.grooves:
            raise ValueError("a set has a groove")


@dataclass(frozen=True, kw_only=True)
class RecordedDistance:
    """A printed distance between two places."""

    from_: Place
    to: Place
    nominal: float
    deviations: Deviation | None = None
    source: Source = "shop"


@dataclass(frozen=True, kw_only=True)
class RecordedInk:
    """How much of what is drawn was explained as what, in drawn lengths, and how many texts had which fate."""

    outline: float
    explained: Mapping[str, float]
    unexplained: float
    texts: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class RecordedWeighed:
    """One reading that was weighed, as `extractor.score.Weighed` has it."""

    at: Point
    axis: Point
    front: FrontEnd | None
    scale: float | None
    set_aside: bool
    taken: bool
    score: Mapping[str, Merit]


@dataclass(frozen=True, kw_only=True)
class DrawingFile:
    """The drawing's name and the hash of its bytes."""

    file: str = ""
    sha256: str = ""


@dataclass(frozen=True, kw_only=True)
class RecordedPart:
    """What was recognised; nothing and empty lists where there is no part."""

    schema: int = SCHEMA
    drawing: DrawingFile = DrawingFile()
    units: Units | None = None
    front: FrontEnd | None = None
    ink: RecordedInk | None = None
    weighed: tuple[RecordedWeighed, ...] = ()
    outer_diameter: float | None = None
    length: float | None = None
    grooves: tuple[RecordedGroove, ...] = ()
    sets: tuple[RecordedSet, ...] = ()
    findings: tuple[RecordedFinding, ...] = ()
    distances: tuple[RecordedDistance, ...] = field(default=(), metadata=SPARE)
    materials: tuple[MaterialNote, ...] = field(default=(), metadata=SPARE)
