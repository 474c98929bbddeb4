"""Offices: which layer and line type each role of ink gets, as seen on real sheets."""

import random
from dataclasses import dataclass, field

from support.ink import Look
from support.plain_dxf import Style, Writer

ROLES = (
    "outline",
    "hidden",
    "centre",
    "dim",
    "leader",
    "text",
    "hatch",
    "frame",
    "thin",
    "cut",
    "old",
    "phantom",
    "off",
)
OFF = "REV_A"  # the layer of an older state, switched off or frozen


@dataclass(frozen=True)
class Office:
    """`layers` by role; `types` are line types by role, on the layer or (`by_entity`) on each stroke."""

    name: str
    layers: dict[str, str]
    types: dict[str, str] = field(default_factory=lambda: {"centre": "CENTER", "hidden": "DASHED", "cut": "CENTER"})
    by_entity: bool = False
    words: str = "en"

    def layer(self, role: str) -> str:
        return OFF if role == "off" else self.layers.get(role, self.layers["outline"])

    def linetype(self, role: str) -> str:
        """What stands on the stroke itself: "" is by layer."""
        shared = [r for r in ROLES if self.layer(r) == self.layer(role)]
        if self.by_entity or len({self.types.get(r, "") for r in shared}) > 1:
            return self.types.get(role, "CONTINUOUS" if self.by_entity else "")
        return ""

    def look(self, role: str) -> Look:
        return Look(self.layer(role), self.linetype(role))

    def layer_types(self) -> dict[str, str]:
        """Line type of each layer."""
        found: dict[str, str] = {}
        for role in ROLES:
            kind = self.types.get(role, "CONTINUOUS")
            name = self.layer(role)
            mixed = len({self.types.get(r, "") for r in ROLES if self.layer(r) == name}) > 1
            found[name] = "CONTINUOUS" if mixed or self.by_entity else kind
        return found


def _office(
    name: str, words: str = "en", by_entity: bool = False, types: dict[str, str] | None = None, **layers: str
) -> Office:
    base = {"centre": "CENTER", "hidden": "DASHED", "cut": "CENTER"}
    return Office(name, layers, {"phantom": "PHANTOM", **(types or base)}, by_entity, words)


OFFICES = (
    _office("zero", by_entity=True, outline="0", dim="DIM", leader="DIM", text="DIM", frame="BORDER"),
    _office("english", outline="OUTLINE", hidden="HIDDEN", centre="CENTER", dim="DIM", leader="DIM", text="TEXT",
            hatch="HATCH", frame="BORDER", thin="THIN", cut="SECTION", old="OLD"),
    _office("standard", types={"centre": "ACAD_ISO04W100", "hidden": "ACAD_ISO02W100", "cut": "ACAD_ISO04W100"},
            outline="Visible (ISO)", hidden="Hidden (ISO)", centre="Centerline (ISO)", dim="Dimension (ISO)",
            leader="Dimension (ISO)", text="Symbol (ISO)", hatch="Hatch (ISO)", frame="Border (ISO)",
            thin="Visible Narrow (ISO)"),
    _office("german", "de", types={"centre": "DASHDOT", "hidden": "DASHED2", "cut": "DASHDOT"}, outline="Kontur",
            hidden="Verdeckt", centre="Mittellinie", dim="Bemassung", leader="Bemassung", text="Text",
            hatch="Schraffur", frame="Blattrahmen", thin="Schmal"),
    _office("chinese", outline="1\u8f6e\u5ed3\u5b9e\u7ebf\u5c42", hidden="4\u865a\u7ebf\u5c42",
            centre="3\u4e2d\u5fc3\u7ebf\u5c42",
            dim="7\u6807\u6ce8\u5c42",
            leader="7\u6807\u6ce8\u5c42", text="7\u6807\u6ce8\u5c42",
            hatch="5\u5256\u9762\u7ebf\u5c42", frame="0"),
    _office("numbers", types={"centre": "CENTER2", "hidden": "HIDDEN", "cut": "CENTER2"}, outline="1", hidden="51",
            centre="101", dim="151", leader="151", text="151", hatch="201", frame="251", thin="2"),
    _office("plain", by_entity=True, types={"centre": "CENTERX2", "hidden": "HIDDEN2", "cut": "CENTERX2"}, outline="0"),
)  # fmt: skip

PATTERNS = {
    "CENTER": (31.75, -6.35, 6.35, -6.35),
    "CENTER2": (19.05, -3.175, 3.175, -3.175),
    "CENTERX2": (63.5, -12.7, 12.7, -12.7),
    "DASHDOT": (12.7, -6.35, 0.0, -6.35),
    "ACAD_ISO04W100": (24.0, -3.0, 0.5, -3.0),
    "DASHED": (12.7, -6.35),
    "PHANTOM": (31.75, -6.35, 6.35, -6.35, 6.35, -6.35),
    "DASHED2": (6.35, -3.175),
    "HIDDEN": (6.35, -3.175),
    "HIDDEN2": (3.175, -1.5875),
    "ACAD_ISO02W100": (12.0, -3.0),
}


def random_office(rng: random.Random) -> Office:
    return rng.choice(OFFICES)


@dataclass(frozen=True)
class FileKind:
    """`writer` "plain" or "library"; `version` R12 to R2018; `insunits` None leaves the header silent."""

    writer: str
    version: str
    insunits: int | None


def random_file(rng: random.Random, units: str, noted: bool) -> FileKind:
    """The header names the unit, or is silent, or says metre, where a note on the sheet says the truth."""
    true = 4 if units == "mm" else 1
    header = rng.choice((true, true, true, 0, 6, None)) if noted else true
    if rng.random() < 0.5:
        return FileKind("plain", rng.choice(("R12", "R2000")), header)
    return FileKind("library", rng.choice(("R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018")), header)


def plain_writer(office: Office, kind: FileKind) -> Writer:
    """Group codes as bigger programs write them, with handles where the version has them; R12 or R2000."""
    units = () if kind.insunits is None else (("$INSUNITS", 70, str(kind.insunits)),)
    style = Style(kind.version == "R12", number=_eight, header=units, blanks=True, bare=False, off=OFF,
                  patterns=tuple(PATTERNS.items()))  # fmt: skip
    return Writer(style, office.layer_types(), office.look)


def _eight(value: float) -> str:
    """At most eight decimals, at least one."""
    text = f"{value:.8f}".rstrip("0")
    return text + "0" if text.endswith(".") else text
