"""The numbers of the sample drawings: parts of an invented hand-operated test pump.

Lengths run from the finished front face toward the chuck and are positive here; diameters are full diameters.
`draw_samples.py` draws them and writes the same numbers to `samples.json`, grooves numbered from the front face and
z negative toward the chuck, as the tool itself prints them.
"""

from dataclasses import dataclass, field
from typing import Any, Literal

Style = Literal["half", "edges", "section"]
Pair = tuple[float, float]


@dataclass(frozen=True)
class SampleGroove:
    """One groove; `start` is its front wall's distance from the front face.

    `width_note` and `floor_note` are the tolerance as lettered on the drawing after the size; where empty, the
    deviations are drawn instead.
    """

    start: float
    width: float
    floor: float
    corner_radius: float = 0.0
    edge_chamfer: float = 0.0
    width_limits: Pair | None = None
    floor_limits: Pair | None = None
    width_note: str = ""
    floor_note: str = ""


@dataclass(frozen=True)
class Sample:
    """One part and how it is drawn.

    `steps`: length and diameter of each, front to back. `origin`: where the front face's centre lies on the sheet.
    `centre`: layer and linetype of the centre line.
    """

    stem: str
    title: str
    units: Literal["mm", "in"]
    version: str
    style: Style
    steps: tuple[Pair, ...]
    recesses: tuple[SampleGroove, ...]
    origin: Pair
    bore: float = 0.0
    end_chamfer: float = 0.0
    upright: bool = False
    material: str = "C45 STEEL"
    centre: tuple[str, str] = ("CENTER", "CENTER")
    visible: str = "OUTLINE"
    notes: tuple[str, ...] = field(default=())

    @property
    def length(self) -> float:
        """Front face to back face."""
        return sum(length for length, _ in self.steps)

    def land(self, distance: float) -> float:
        """Diameter of the step at a distance from the front face."""
        end = 0.0
        for length, diameter in self.steps:
            end += length
            if distance < end:
                return diameter
        raise ValueError(f"{self.stem}: {distance} lies behind the part")

    def numbers(self) -> dict[str, Any]:
        """The part as the tool should read it."""
        return {
            "file": f"{self.stem}.dxf",
            "units": self.units,
            "outer_diameter": max(diameter for _, diameter in self.steps),
            "length": round(self.length, 6),
            "grooves": [self._groove(n, recess) for n, recess in enumerate(self.recesses, 1)],
        }

    def _groove(self, number: int, recess: SampleGroove) -> dict[str, Any]:
        limits = {"width": recess.width_limits, "floor_diameter": recess.floor_limits}
        mouth = self.land(recess.start)
        return {
            "id": number,
            "z_near": round(-recess.start, 6),
            "z_far": round(-recess.start - recess.width, 6),
            "width": recess.width,
            "mouth_diameter": mouth,
            "floor_diameter": recess.floor,
            "depth": round((mouth - recess.floor) / 2, 6),
            "corner_radius": recess.corner_radius,
            "edge_chamfer": recess.edge_chamfer,
            "tolerances": {name: list(pair) for name, pair in limits.items() if pair},
        }


def row(first: float, pitch: float, count: int, width: float, floor: float, **more: Any) -> tuple[SampleGroove, ...]:
    """Like recesses at one pitch; tolerances are lettered at the first."""
    return tuple(SampleGroove(round(first + k * pitch, 6), width, floor, **more) for k in range(count))


def interleaved(*rows: tuple[SampleGroove, ...]) -> tuple[SampleGroove, ...]:
    """Rows that run between one another, in order from the front face."""
    return tuple(sorted((recess for one in rows for recess in one), key=lambda recess: recess.start))


# Sizes of the three retaining-ring grooves: DIN 471 for shafts 20, 25 and 30 (d2 with h11 or h12, m H13).
RING_SHAFT = Sample(
    stem="ring-shaft",
    title="LEVER SHAFT",
    units="mm",
    version="R2010",
    style="edges",
    steps=((22.0, 20.0), (20.0, 25.0), (26.0, 30.0)),
    recesses=(
        SampleGroove(17.0, 1.3, 19.0, 0.0, 0.0, (0.0, 0.14), (-0.13, 0.0), "H13", "h11"),
        SampleGroove(36.0, 1.3, 23.9, 0.0, 0.0, (0.0, 0.14), (-0.21, 0.0), "H13", "h12"),
        SampleGroove(55.0, 1.6, 28.6, 0.0, 0.0, (0.0, 0.14), (-0.21, 0.0), "H13", "h12"),
    ),
    origin=(160.0, 120.0),
    end_chamfer=1.0,
    notes=("RETAINING RINGS DIN 471", "BREAK SHARP EDGES"),
)

PISTON = Sample(
    stem="piston",
    title="PUMP PISTON",
    units="mm",
    version="R12",
    style="half",
    steps=((52.0, 40.0),),
    recesses=(
        *row(8.0, 6.0, 3, 2.5, 33.6, width_limits=(0.01, 0.03), floor_limits=(-0.1, 0.0)),
        SampleGroove(30.0, 4.0, 32.5, floor_limits=(-0.1, 0.0)),
    ),
    origin=(152.4, 97.3),
    end_chamfer=1.0,
    material="EN-GJL-250",
    centre=("AXIS", "CENTER"),
    visible="0",
    notes=("DRAWN AS HALF PROFILE",),
)

LABYRINTH = Sample(
    stem="labyrinth-carrier",
    title="SEAL CARRIER",
    units="in",
    version="R2000",
    style="section",
    steps=((2.0, 2.5),),
    recesses=row(0.25, 0.2, 7, 0.125, 2.25, floor_limits=(-0.005, 0.005)),
    origin=(6.25, 4.75),
    bore=1.25,
    end_chamfer=0.03,
    material="LEADED BRONZE",
    notes=("BORE AND FACES AT ONE SETTING",),
)

GRIP_KNOB = Sample(
    stem="grip-knob",
    title="GRIP KNOB",
    units="mm",
    version="R2007",
    style="edges",
    steps=((50.0, 48.0), (12.0, 30.0)),
    recesses=interleaved(row(4.0, 7.0, 6, 2.0, 45.0), row(7.2, 7.0, 6, 2.0, 45.0)),
    origin=(155.0, 118.0),
    end_chamfer=1.5,
    material="EN AW-6082",
    centre=("0", "CENTER2"),
    visible="VISIBLE",
    notes=("TWO ROWS OF SIX GROOVES",),
)

HOSE_SPOOL = Sample(
    stem="hose-spool",
    title="HOSE SPOOL",
    units="mm",
    version="R2013",
    style="section",
    steps=((66.0, 60.0),),
    recesses=(
        SampleGroove(6.0, 3.0, 52.0),
        SampleGroove(13.0, 5.0, 50.0, width_limits=(0.0, 0.1)),
        SampleGroove(22.0, 4.0, 46.0),
        SampleGroove(31.0, 8.0, 44.0, floor_limits=(-0.2, 0.0)),
        SampleGroove(44.0, 3.0, 54.0),
        SampleGroove(51.5, 3.5, 54.0),
    ),
    origin=(158.0, 112.5),
    bore=12.0,
    end_chamfer=1.0,
    centre=("CENTRELINES", "CENTER"),
)

SPINDLE = Sample(
    stem="stepped-spindle",
    title="VALVE SPINDLE",
    units="mm",
    version="R2018",
    style="half",
    steps=((18.0, 24.0), (16.0, 30.0), (26.0, 36.0)),
    recesses=row(5.0, 8.0, 6, 3.0, 21.0, floor_limits=(-0.1, 0.1)),
    origin=(148.0, 95.0),
    end_chamfer=0.5,
    visible="CONTOUR",
)

PLUNGER = Sample(
    stem="plunger",
    title="PLUNGER",
    units="mm",
    version="R2004",
    style="edges",
    steps=((64.0, 28.0),),
    recesses=(
        *row(10.0, 9.0, 2, 3.6, 24.0, corner_radius=0.3, width_limits=(0.0, 0.25), floor_limits=(-0.05, 0.0)),
        SampleGroove(34.0, 4.0, 23.0, corner_radius=0.4),
        SampleGroove(46.0, 3.0, 25.0, corner_radius=0.2, edge_chamfer=0.3),
    ),
    origin=(157.5, 119.25),
    end_chamfer=1.0,
    notes=("GLANDS FOR SEAL RINGS 2.62",),
)

SLEEVE = Sample(
    stem="valve-sleeve",
    title="VALVE SLEEVE",
    units="mm",
    version="R2018",
    style="edges",
    steps=((15.0, 45.0), (43.0, 52.0)),
    recesses=(*row(22.0, 8.0, 3, 3.0, 46.0, width_limits=(-0.05, 0.05)), SampleGroove(47.0, 2.2, 48.0)),
    origin=(105.0, 160.0),
    bore=20.0,
    upright=True,
    centre=("AXES", "CENTERX2"),
    notes=("DRAWN UPRIGHT, FRONT FACE AT THE TOP",),
)

SAMPLES = (RING_SHAFT, PISTON, LABYRINTH, GRIP_KNOB, HOSE_SPOOL, SPINDLE, PLUNGER, SLEEVE)
