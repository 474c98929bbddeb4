"""What came of reading one sheet, judged against the truth.

right      every groove as it is, nothing stopped
refused    a stop where the sheet was plain enough to read
wrong      an answer without a stop or caution that is not the part: the worst
refused-ok a stop where a refusal is as good as an answer
crash      any exception at all
"""

import tempfile
import time
import traceback
from dataclasses import dataclass
from pathlib import Path

from extractor import ReadOptions, read_drawing
from extractor.part import Groove, Part, Reading
from support.independent.offices import Case
from support.independent.parts import TrueGroove, TurnedPart

CLOSE = {"mm": 0.002, "in": 0.0001}
ROUND = {"mm": 0.02, "in": 0.001}


@dataclass(frozen=True)
class Outcome:
    """One word of the list above, with the reason and the seconds it took."""

    word: str
    why: str
    seconds: float
    codes: tuple[str, ...] = ()
    reading: Reading | None = None


def outcome(case: Case, folder: Path | None = None) -> Outcome:
    """Read the sheet and judge what came of it."""
    with tempfile.TemporaryDirectory() as scratch:
        path = (folder or Path(scratch)) / "sheet.dxf"
        case.save(str(path))
        started = time.perf_counter()
        try:
            reading = read_drawing(path, ReadOptions(**case.options))  # type: ignore[arg-type]
        except Exception as fault:
            last = traceback.extract_tb(fault.__traceback__)[-1]
            where = f"{Path(last.filename).name}:{last.lineno}"
            return Outcome("crash", f"{type(fault).__name__}: {fault} ({where})", time.perf_counter() - started)
    return judged(case, reading, time.perf_counter() - started)


def judged(case: Case, reading: Reading, seconds: float) -> Outcome:
    stops = [f for f in reading.findings if f.stops]
    codes = tuple(sorted({f.code for f in reading.findings}))
    if stops:
        word = "refused" if case.expect == "read" else "refused-ok"
        return Outcome(word, "; ".join(f"{f.code}: {f.message}" for f in stops), seconds, codes, reading)
    if case.expect == "caution" and any(f.level == "caution" for f in reading.findings):
        grooved = reading.part is not None and reading.part.grooves
        return Outcome(
            "wrong" if grooved else "right", "a slot read as a groove" if grooved else "", seconds, codes, reading
        )
    if case.expect == "undercut":
        told = any(f.level == "caution" for f in reading.findings)
        return Outcome(
            "right" if told else "wrong", "" if told else "an undercut without a word", seconds, codes, reading
        )
    if case.expect == "refuse" or case.part is None:
        return Outcome("wrong", f"read what must be refused: {_told(reading)}", seconds, codes, reading)
    fault = "no part" if reading.part is None else differences(case.part, reading.part, case.also)
    cautioned = any(f.level == "caution" for f in reading.findings)
    word = "right" if not fault else "warned" if cautioned else "wrong"
    return Outcome(word, fault, seconds, codes, reading)


def _told(reading: Reading) -> str:
    part = reading.part
    return f"{part.outer_diameter:g} x {part.length:g}, {len(part.grooves)} grooves" if part else "no part"


def differences(true: TurnedPart, read: Part, also: tuple[TrueGroove, ...] = ()) -> str:
    """What of the reading is not the truth, "" if nothing."""
    if true.units != read.units:
        return f"units {read.units}, truly {true.units}"
    close = CLOSE[true.units]
    said: list[str] = []
    if abs(true.outer_diameter - read.outer_diameter) > close:
        said.append(f"outer diameter {read.outer_diameter:g}, truly {true.outer_diameter:g}")
    if abs(true.length - read.length) > close:
        said.append(f"length {read.length:g}, truly {true.length:g}")
    left = list(read.grooves)
    for groove in true.grooves:
        match = next((g for g in left if _same_place(groove, g, close)), None)
        if match is None:
            said.append(f"missing {_name(groove)}")
            continue
        left.remove(match)
        said += _unlike(groove, match, true.units)
    hinted = [g for g in left for a in also if _same_place(a, g, close) and not _unlike(a, g, true.units)]
    said += [f"extra {_name(g)}" for g in left if g not in hinted]
    return "; ".join(said[:6])


def _same_place(true: TrueGroove, read: Groove, close: float) -> bool:
    far = max(close, (true.z_near - true.z_far) * 0.2)
    return true.where == read.where and abs(true.z_near - read.z_near) < far and abs(true.z_far - read.z_far) < far


def _unlike(true: TrueGroove, read: Groove, units: str) -> list[str]:
    close, loose = CLOSE[units], ROUND[units]
    said: list[str] = []
    names = ["z_near", "z_far", "mouth_diameter", "floor_diameter", "corner_radius", "edge_chamfer"]
    if true.shapes == ("round",):
        names.remove("corner_radius")  # the arc's own radius is as good an answer as none
    for name in names:
        limit = loose if name in ("corner_radius", "edge_chamfer") else close
        if abs(getattr(true, name) - getattr(read, name)) > limit:
            said.append(f"{name} of {_name(true)} read as {getattr(read, name):g}, truly {getattr(true, name):g}")
    if read.shape not in true.shapes:
        said.append(f"shape of {_name(true)} read as {read.shape}")
    for name, (lower, upper) in true.tolerances.items():
        got = read.tolerances.get(name)
        if got is None or abs(got[0] - lower) > 1e-6 or abs(got[1] - upper) > 1e-6:
            said.append(f"tolerance of {name} of {_name(true)} read as {got}, truly {(lower, upper)}")
    for name in set(read.tolerances) - set(true.tolerances) - set(read.general):
        said.append(f"tolerance of {name} of {_name(true)} read as {read.tolerances[name]}, truly none")
    return said


def _name(groove: TrueGroove | Groove) -> str:
    return f"{groove.where} groove {groove.z_near:g}..{groove.z_far:g} floor {groove.floor_diameter:g}"
