"""Where the files of one drawing go: program, job sheet and record, all beside one another.

`ring.dxf` becomes `ring.nc` (or what the dialect calls program files), `ring.html`, `ring.json`. A name too
long to take the longest ending is cut and told apart by a hash.
"""

import hashlib
import os
import unicodedata
from collections.abc import Iterable, Mapping
from pathlib import Path

from extractor.errors import SettingsError
from extractor.values import dataclass

FORM = "{name}.nc"
"""The name of a program's file where the dialect gives no other."""
LONGEST_NAME = 255
"""Bytes of a file name on the usual file systems."""

DEVICES = frozenset({"CON", "PRN", "AUX", "NUL", *(f"{name}{n}" for name in ("COM", "LPT") for n in range(1, 10))})
"""Names that Windows keeps for devices, with any ending: a share may be read there, so no file is called so."""

LONGEST_ENDING = len(".r9999-999.12345678.stale.99999")


@dataclass(frozen=True)
class Outputs:
    """The three files of one drawing; `form` is the name of its program's file, with {name} where `stem` goes."""

    folder: Path
    stem: str
    form: str = FORM

    @property
    def program(self) -> Path:
        """The lathe program."""
        return self.folder / program_file(self.form, self.stem)

    @property
    def sheet(self) -> Path:
        """The job sheet."""
        return self.folder / f"{self.stem}.html"

    @property
    def record(self) -> Path:
        """The record."""
        return self.folder / f"{self.stem}.json"

    @property
    def all(self) -> tuple[Path, Path, Path]:
        """Every file that may be written."""
        return (self.program, self.sheet, self.record)


def spelling(name: str) -> str:
    """A name as a shop's share may see it: without capital letters, and accents put together one way.

    >>> spelling("E\u0301cart") == spelling("\u00e9cart")
    True
    """
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def output_stem(name: str) -> str:
    """The drawing's name without its ending, short enough for every file made of it, and a name on every system.

    >>> output_stem("ring.dxf"), output_stem("aux.dxf")
    ('ring', 'aux_')
    """
    stem = _no_device(Path(name).stem)
    return fitted(f"{stem}_" if stem.endswith((" ", ".")) else stem, LONGEST_ENDING)


def program_file(form: str, stem: str) -> str:
    """The name of a program's file for a drawing's stem, kept as short and as safe as that is.

    >>> program_file("{name}.nc", "ring"), program_file("O0042.cut", "ring"), program_file("com{name}.nc", "1")
    ('ring.nc', 'O0042.cut', 'com1_.nc')
    """
    name, dot, ending = form.rpartition(".")
    return fitted(_no_device(name.format(name=stem)), LONGEST_ENDING) + dot + ending


def own_name(form: str) -> bool:
    """True if a form names the file after the drawing, so that no two drawings in a folder share one."""
    return "{name}" in form


def form_of(file: str) -> str:
    """The form that gives exactly this file name.

    >>> program_file(form_of("a{name}.nc"), "ring")
    'a{name}.nc'
    """
    return file.replace("{", "{{").replace("}", "}}")


def _no_device(stem: str) -> str:
    """A stem that is no name of a device."""
    first, dot, rest = stem.partition(".")
    return f"{first.rstrip(' ')}_{dot}{rest}" if first.rstrip(" ").upper() in DEVICES else stem


def fitted(stem: str, ending: int) -> str:
    """The stem, cut and marked with a hash of its own where an ending of so many bytes would make it too long.

    >>> len(fitted("x" * 300, 5))
    250
    """
    encoded = os.fsencode(stem)
    if len(encoded) + ending <= LONGEST_NAME:
        return stem
    digest = hashlib.sha256(encoded).hexdigest()[:8]
    kept = encoded[: LONGEST_NAME - ending - len(digest) - 1].decode(errors="ignore")
    return f"{kept}-{digest}"


def outputs_for(drawing: Path, out: Path | None, form: str = FORM) -> Outputs:
    """The files for a drawing, in `out` or beside it; SettingsError where one of them is the drawing itself."""
    outputs = Outputs(drawing.parent if out is None else out, output_stem(drawing.name), form)
    for path in outputs.all:
        if _same(path, drawing):
            raise SettingsError(f"{show(drawing)} would be overwritten by its own results: give a drawing (.dxf).")
    return outputs


def outputs_for_all(drawings: Iterable[Path], out: Path | None, form: str = FORM) -> dict[Path, Outputs]:
    """The files for each of several drawings, each drawing once; SettingsError where two would write one file."""
    chosen: dict[Path, Outputs] = {}
    taken: dict[str, Path] = {}
    for drawing in drawings:
        outputs = outputs_for(drawing, out, form)
        before = taken.setdefault(_key(outputs.folder / outputs.stem), drawing)
        if before is drawing:
            chosen[drawing] = outputs
        elif not _same(before, drawing):
            raise _two(before, drawing, outputs.program if own_name(form) else outputs.sheet, "an --out")
    return chosen


def programs_apart(outputs: Mapping[Path, Outputs]) -> None:
    """SettingsError where two drawings would share one program file, as by a dialect that names files by number."""
    taken: dict[str, Path] = {}
    for drawing, one in outputs.items():
        before = taken.setdefault(_key(one.program), drawing)
        if before is not drawing:
            raise _two(before, drawing, one.program, "a --number or an --out")


def _key(path: Path) -> str:
    """A path, folded because a shop's share may not tell capital letters from small ones."""
    return spelling(str(Path(os.path.realpath(path.parent), path.name)))


def _two(before: Path, drawing: Path, path: Path, what: str) -> SettingsError:
    """What is said of two drawings that would write one file."""
    both = f"{show(before)} and {show(drawing)} would both write {show(path)}"
    return SettingsError(f"{both}: make them one at a time, each with {what} of its own.")


INPUT_ENDINGS = frozenset({".dxf", ".dwg", ".nc", ".toml", ".json", ".html"})
"""Files that somebody may still need: drawings, programs, shop files, records, sheets."""


def refuse_overwriting(option: str, out: Path, made_from: Iterable[Path], ending: str, own: bytes = b"") -> None:
    """SettingsError if a file to be written would replace anything but an earlier one of its kind.

    `made_from` are the files that it is made from. `ending` is that of its kind, and `own` what each file of its kind
    holds, where that can be told.
    """
    for one in made_from:
        if _same(out, one):
            words = f"{show(one)} would be overwritten by what is made from it"
            raise SettingsError(f"{words}: give {option} another name.")
    if not out.exists():
        return
    other = out.suffix.lower() in INPUT_ENDINGS - {ending} if out.is_file() else True
    if other or (own and own not in out.read_bytes()):
        raise SettingsError(f"{show(out)} is there already and is something else: give {option} another name.")


def new_in(folder: Path, file: str) -> Path:
    """A file that must be new in its folder; SettingsError if its name, which nobody chose, is already taken."""
    if os.path.lexists(folder / file):
        raise SettingsError(f"{show(folder / file)} is there already: give --out a file, or another folder.")
    return folder / file


def _same(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except OSError:
        # Unlike Path.resolve it takes a link that leads back to itself for a file of its own.
        return os.path.realpath(one) == os.path.realpath(other)


def show(path: Path) -> str:
    """A path on one line, whatever characters it holds."""
    text = str(path)
    return text if text.isprintable() else ascii(text)[1:-1]
