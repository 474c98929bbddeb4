"""The part, its recesses, and what is measured on them, as a person thinks of them: distances are positive."""

from dataclasses import dataclass, field

Point = tuple[float, float]
State = dict[tuple[int, str], float]


@dataclass(frozen=True, kw_only=True)
class Recess:
    """One groove.

    Outside and inside: `near` and `far` are distances of its walls from the front face, `floor` and `land` diameters.
    Face: `near` and `far` are the diameters of its outer and inner wall, `floor` its depth from the face, `land` 0.
    """

    where: str
    near: float
    far: float
    floor: float
    land: float
    corner: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A stepped shaft; each step is (distance of its end from the front face, diameter). Bore 0: solid."""

    units: str
    steps: tuple[tuple[float, float], ...]
    recesses: tuple[Recess, ...]
    bore: float = 0.0

    @property
    def length(self) -> float:
        return self.steps[-1][0]

    def state(self) -> State:
        """Every wall and floor at its drawn place."""
        return {(i, f): getattr(r, f) for i, r in enumerate(self.recesses) for f in ("near", "far", "floor")}


@dataclass(frozen=True, kw_only=True)
class Measure:
    """A size on the metal: a sum of walls and floors. `corner` measures have no terms."""

    name: str
    recess: int
    terms: tuple[tuple[int, str, float], ...] = ()
    constant: float = 0.0

    def value(self, state: State) -> float:
        return self.constant + sum(share * state[i, name] for i, name, share in self.terms)


@dataclass(frozen=True, kw_only=True)
class Mark:
    """One dimension on the sheet: what it measures, between which points, and what it prints.

    `text` is the override as the file holds it ("" for none), `variables` the dimension variables set for it.
    `angle` is that of the dimension line; a radius has its centre in `first` and the arc's middle in `second`.
    """

    measures: tuple[Measure, ...]
    first: Point
    second: Point
    line: Point
    angle: float = 0.0
    radius: bool = False
    leader: bool = False
    text: str = ""
    variables: dict[str, float] = field(default_factory=dict)
    decimals: int = 2
    drawn: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Limits:
    """The least and greatest size allowed, and where that is from: deviation, fit, class or shop."""

    low: float
    high: float
    source: str
    nominal: float


@dataclass(frozen=True, kw_only=True)
class Insert:
    """A square grooving insert of the shop file."""

    station: int
    where: str
    width: float
    corner: float
    reference: str


@dataclass(frozen=True, kw_only=True)
class Shop:
    """What the law needs of a shop: its units, its inserts, what it allows where a drawing prints nothing."""

    units: str
    tolerance: float
    inserts: tuple[Insert, ...]
    dialect: str = "plunge"


def measure(piece: Piece, name: str, i: int, j: int | None = None) -> Measure:
    """The measure of that name on recess `i`, for pitches and lands to recess `j`, further from the front."""
    recess = piece.recesses[i]
    half = 0.5 if recess.where == "face" else 1.0
    side = 1.0 if recess.where == "inside" else -1.0
    terms: dict[str, tuple[tuple[int, str, float], ...]] = {
        "width": ((i, "near", half), (i, "far", -half))
        if recess.where == "face"
        else ((i, "far", 1.0), (i, "near", -1.0)),
        "floor": ((i, "floor", 1.0),),
        "depth": ((i, "floor", side / 2),),
        "near": ((i, "near", 1.0),),
        "far": ((i, "far", 1.0),),
        "centre": ((i, "near", 0.5), (i, "far", 0.5)),
        "near from back": ((i, "near", -1.0),),
        "far from back": ((i, "far", -1.0),),
        "corner": (),
    }
    constant = {"depth": -side * recess.land / 2, "near from back": piece.length, "far from back": piece.length}
    if j is not None:
        terms |= {
            "land": ((j, "near", 1.0), (i, "far", -1.0)),
            "pitch": ((j, "near", 1.0), (i, "near", -1.0)),
            "far pitch": ((j, "far", 1.0), (i, "far", -1.0)),
            "centre pitch": ((j, "near", 0.5), (j, "far", 0.5), (i, "near", -0.5), (i, "far", -0.5)),
        }
    return Measure(name=name, recess=i if j is None else j, terms=terms[name], constant=constant.get(name, 0.0))
