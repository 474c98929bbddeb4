"""The job sheet: one self-contained page made from a record and the program's text.

Pure: a record and a text in, a page out. The page loads nothing, asks for nothing, and runs only the script that is
written into it, which its own policy pins by hash. Everything from a drawing, a file name or a shop file is escaped.
"""

import base64
import hashlib
import re
from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from extractor.finding import Level
from extractor.grouping import grouped
from rillwright.jobsheet import cautions, figures, view
from rillwright.jobsheet.choices import rows_with_choices
from rillwright.jobsheet.compiled import CompiledTemplates
from rillwright.jobsheet.detail import detail_pictures
from rillwright.jobsheet.enlarged import enlarged, enlarged_rows, rings
from rillwright.jobsheet.inspection import checks_of
from rillwright.jobsheet.listing import ListedLine, listing
from rillwright.jobsheet.picture import part_picture
from rillwright.jobsheet.refusal import close_picture, refusal_picture
from rillwright.jobsheet.scene import Scene, left_out, scene_of
from rillwright.jobsheet.stage import stage_of
from rillwright.jobsheet.stops import stepping
from rillwright.jobsheet.view import FindingRow
from rillwright.jobsheet.words import explained
from rillwright.records.jsonform import Json
from rillwright.records.record import Record

WIDEST = 40
"""Characters of the longest line by which paper parts the program into columns; longer lines are folded."""

TURNS = (*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x200E, 0x200F)
"""Characters that turn the writing direction: a name with one could show as another name."""

CONTROLS = (*range(0x09), *range(0x0B, 0x20), *range(0x7F, 0xA0))
"""Control characters but for tab and line feed: no page may hold them (HTML standard), and a printer may obey them."""

UNSHOWN = re.compile(f"[{''.join(map(chr, (*TURNS, *CONTROLS)))}]")
"""Any of these; a page is long, and a search is ten times as fast as to look up every character."""


def shown(value: Any) -> Any:
    """A text without control characters or hidden changes of writing direction; anything else as it is.

    >>> shown("ring\u202efxd.dxf") == "ring\ufffdfxd.dxf"
    True
    """
    return UNSHOWN.sub("\ufffd", value) if isinstance(value, str) and not isinstance(value, Markup) else value


CELL_END = "\0"
"""What parts the texts of cells until they are escaped: no page may hold it."""

TORN = re.compile(r"(\S{0,12}-\d\S{0,12})")
"""A word with a minus before a figure; bounded, so that a long file name can still be broken."""


@lru_cache(maxsize=64)
def whole(sentence: str) -> Markup:
    """A sentence as markup, in which no place such as Z-4.5 is broken at its minus by a line end.

    >>> print(whole("From Z-4 to <b>."))
    From <span class="keep">Z-4</span> to &lt;b&gt;.
    """
    pieces = map(escape, TORN.split(str(shown(sentence))))
    return Markup("".join([f'<span class="keep">{one}</span>' if n % 2 else one for n, one in enumerate(pieces)]))


def cells(texts: Iterable[str]) -> Markup:
    """Figures of our own as cells of a long table, which takes a third of the time of setting each by itself.

    >>> print(cells(["-4.000", "<"]))
    <td>-4.000</td><td>&lt;</td>
    """
    return Markup(f"<td>{str(escape(CELL_END.join(texts))).replace(CELL_END, '</td><td>')}</td>")


@cache
def environment() -> Environment:
    """The templates, with escaping on and a missing value an error."""
    made = Environment(
        loader=FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        bytecode_cache=CompiledTemplates(Path(__file__)),
    )
    made.filters |= {"whole": whole, "cells": cells}
    return made


@cache
def _source(name: str) -> str:
    """The text of a style sheet or script as it is written into the page; the style is a template, the script none."""
    if name.endswith(".css"):
        return environment().get_template(name).render()
    loader = environment().loader
    assert loader is not None
    return loader.get_source(environment(), name)[0]


def script_hash(script: str) -> str:
    """The hash by which a page's policy (Content Security Policy, level 2) allows one script.

    >>> script_hash("")
    'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='
    """
    return "sha256-" + base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()


def page_parts(script: str) -> Json:
    """What every page needs: its style, its script, and the policy that lets nothing else in."""
    source, style = _source(script) if script else "", _source("sheet.css")
    allowed = f"'{script_hash(source)}'" if source else "'none'"
    policy = f"default-src 'none'; style-src 'unsafe-inline'; script-src {allowed}; base-uri 'none'; form-action 'none'"
    return {"style": Markup(style), "script": Markup(source), "policy": policy}


def page(template: str, values: Mapping[str, Any]) -> str:
    """A page from its template, without any character that must not be shown, wherever it came from."""
    return UNSHOWN.sub("\ufffd", environment().get_template(template).render(values))


def css_string(text: str) -> str:
    r"""A text as a string of a style sheet, whatever is in it.

    >>> css_string('a"</style>.dxf')
    '"a\\22 \\3c \\2f style\\3e .dxf"'
    """
    kept = (c if c.isascii() and (c.isalnum() or c in " .-_") else f"\\{ord(c):x} " for c in text)
    return f'"{"".join(kept)}"'


LONGEST_FOOT, ITS_END = 90, 20
"""Characters of a name that fit beside the count of pages at the foot of a printed page, and how many are its end's."""


def middle_out(name: str) -> str:
    """A name that fits the foot of a page: a longer one is cut to its beginning and its end.

    >>> len(middle_out("a" * 200)), middle_out("ring.dxf")
    (90, 'ring.dxf')
    """
    if len(name) <= LONGEST_FOOT:
        return name
    return f"{name[: LONGEST_FOOT - ITS_END - 1]}…{name[-ITS_END:]}"


def foot_style(file: str) -> Markup:
    """The line at the foot of every printed page: its file, and which page of how many."""
    name, count = css_string(middle_out(str(shown(file)))), '"page " counter(page) " of " counter(pages)'
    boxes = f"@bottom-left{{content:{name}}}@bottom-right{{content:{count}}}"
    return Markup(f"@media print{{@page{{font:8pt sans-serif;{boxes}}}}}")


def program_state(record: Record, text: str | None) -> str:
    """Whether the program's text is the one verified: "same", "edited", or "none" where there is no text.

    An edited one that the record judges is one that "agrees" or "differs".
    """
    if not text:
        return "none"
    found, held = hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest(), record.edited
    if record.program is not None and found == record.program.sha256:
        return "same"
    if held is None or held.sha256 != found or held.agree is None:
        return "edited"
    return "agrees" if held.agree else "differs"


def render_sheet(record: Record, program_text: str | None = None) -> str:
    """The whole page. A record with less in it than `make` writes gives a page with less on it."""
    scene, state = scene_of(record), program_state(record, program_text)
    rows = rows_with_choices(record)
    values = _facts(record, rows, state) | _pictures(record, scene, rows, program_text if state == "same" else None)
    lines = _listing(record, program_text, state)
    values |= {"listing": lines, "program_state": state, "explained": any(row.sentence for row in lines)}
    values["longest"] = min(WIDEST, max((len(row.text) for row in lines if not row.folded), default=0))
    values |= {"hashes": view.hash_rows(record, state), "cautions": cautions, "foot_style": foot_style(values["file"])}
    return page("sheet.html", values | page_parts("sheet.js"))


def _facts(record: Record, rows: list[FindingRow], state: str) -> Json:
    """Everything on the sheet that is words and figures."""
    verdict = record.verification
    return {
        "file": record.part.drawing.file or "drawing",
        "made": record.made,
        "program": record.program,
        "units": record.part.units,
        "headline": view.headline(record, state),
        "tiles": figures.with_sections(figures.tiles(record)),
        "built_in": record.setup.built_in if record.setup else (),
        "grooves": view.groove_rows(record),
        "sets": view.set_rows(record),
        "tools": figures.tool_rows(record.setup),
        "setup": figures.setup_rows(record),
        "operations": view.operation_rows(record),
        "findings": rows,
        "reasons": _reasons(rows, cautions.answered_by(record)),
        "verdict": verdict,
        "verdict_rows": view.verdict_rows(record),
        "verdict_findings": view.finding_rows(verdict.findings) if verdict else [],
        "checks": _checks(record, left_out(record)),
        "made_text": view.made_text(record),
    }


def _checks(record: Record, uncut: frozenset[int]) -> dict[int, list[Markup]]:
    """The rows of the inspection by groove, so that those of each stay together on paper; like cells are set once."""
    cells = environment().get_template("macros.html").module.check_cells  # type: ignore[attr-defined]
    told: dict[tuple[Any, ...], Markup] = {}
    rows: dict[int, list[Markup]] = {}
    for check in checks_of(record):
        alike = (*check.said, check.groove in uncut)
        if alike not in told:
            told[alike] = cells(check.texts, check.groove in uncut)
        rows.setdefault(check.groove, []).append(told[alike])
    return rows


def _reasons(rows: list[FindingRow], accept: dict[str, str]) -> list[Json]:
    """The stops with what to do about them; those of one code together, since what to do is the same."""
    alike = grouped((row.code, row) for row in _stops(rows))
    return [
        {"code": code, "findings": found, "remedy": cautions.cure(found, accept.get(code, ""))}
        for code, found in alike.items()
    ]


def _pictures(record: Record, scene: Scene | None, rows: list[FindingRow], text: str | None) -> Json:
    """The pictures and, where there is a verified program, what the stepping script needs."""
    stage = stage_of(scene) if scene else None
    stops = _stops(rows)
    stopped = frozenset(row.groove for row in stops if row.groove)
    # Where the part is known and no place on the sheet is meant, the part's own picture says it better.
    drawing = stage is None or any(row.at or row.choices for row in stops)
    larger = enlarged(scene, stage, stopped) if scene and stage else ()
    return {
        "picture": part_picture(scene, stage, record.path, stopped, rings(larger)) if scene and stage else None,
        "details": detail_pictures(scene) if scene else {},
        "enlarged": enlarged_rows(scene, larger) if scene else [],
        "stepping": stepping(record, scene, stage, text) if scene and stage and text else None,
        "refusal": refusal_picture(record.drawn, rows) if drawing else None,
        "close": close_picture(record.drawn, rows),
    }


def _stops(rows: list[FindingRow]) -> list[FindingRow]:
    """Those that say why there is no program."""
    return [row for row in rows if row.level is Level.STOP]


def _listing(record: Record, text: str | None, state: str) -> list[ListedLine]:
    """The program's lines; one that was edited since is listed without grooves, which would be those of another."""
    if text is None:
        return []
    dialect = record.program.dialect if record.program else ""
    meanings, sentences = explained(text, dialect, record.part.units)
    return listing(text, record if state == "same" else None, meanings, sentences)
