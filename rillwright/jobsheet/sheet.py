"""The job sheet: one self-contained page made from a record and the program's text.

Pure: a record and a text in, a page out. The page loads nothing, asks for nothing, and runs only the script that is
written into it, which its own policy pins by hash. Everything from a drawing, a file name or a shop file is escaped.
"""

import base64
import hashlib
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from rillwright.jobsheet import cautions, figures, view
from rillwright.jobsheet.choices import with_choices
from rillwright.jobsheet.detail import detail_pictures, fine_operations
from rillwright.jobsheet.inspection import checks_of
from rillwright.jobsheet.listing import ListedLine, listing
from rillwright.jobsheet.picture import part_picture
from rillwright.jobsheet.refusal import close_picture, refusal_picture
from rillwright.jobsheet.scene import Scene, left_out, scene_of
from rillwright.jobsheet.stage import stage_of
from rillwright.jobsheet.stops import stepping
from rillwright.jobsheet.words import explained

Json = dict[str, Any]


WIDEST = 40
"""Characters of the longest line by which paper parts the program into columns; longer lines are folded."""

TURNS = (*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x200E, 0x200F)
"""Characters that turn the writing direction: a name with one could show as another name."""

CONTROLS = (*range(0x09), *range(0x0B, 0x20), *range(0x7F, 0xA0))
"""Control characters but for tab and line feed: no page may hold them (HTML standard), and a printer may obey them."""

UNSHOWN = dict.fromkeys((*TURNS, *CONTROLS), "\ufffd")


def shown(value: Any) -> Any:
    """A text without hidden turns of direction and control characters; anything else as it is.

    >>> shown("ring\u202efxd.dxf") == "ring\ufffdfxd.dxf"
    True
    """
    return value.translate(UNSHOWN) if isinstance(value, str) and not isinstance(value, Markup) else value


TORN = re.compile(r"(\S{0,12}-\d\S{0,12})")
"""A word with a minus before a figure; bounded, so that a long file name can still be broken."""


def whole(sentence: str) -> Markup:
    """A sentence whose places such as Z-4.5 are not torn at their minus by the end of a line.

    >>> print(whole("From Z-4 to <b>."))
    From <span class="keep">Z-4</span> to &lt;b&gt;.
    """
    pieces = TORN.split(str(shown(sentence)))
    kept = Markup('<span class="keep">{}</span>')
    return Markup("").join(kept.format(piece) if n % 2 else escape(piece) for n, piece in enumerate(pieces))


@cache
def environment() -> Environment:
    """The templates, with escaping on and a missing value an error."""
    made = Environment(
        loader=FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=shown,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["whole"] = whole
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
    return environment().get_template(template).render(values).translate(UNSHOWN)


def css_string(text: str) -> str:
    r"""A text as a string of a style sheet, whatever is in it.

    >>> css_string('a"</style>.dxf')
    '"a\\22 \\3c \\2f style\\3e .dxf"'
    """
    kept = (c if c.isascii() and (c.isalnum() or c in " .-_") else f"\\{ord(c):x} " for c in text)
    return f'"{"".join(kept)}"'


def foot_style(file: str) -> Markup:
    """The line at the foot of every printed page: whose it is, and which of how many."""
    name, count = css_string(str(shown(file))), '"page " counter(page) " of " counter(pages)'
    boxes = f"@bottom-left{{content:{name}}}@bottom-right{{content:{count}}}"
    return Markup(f"@media print{{@page{{font:8pt sans-serif;{boxes}}}}}")


def program_state(record: Mapping[str, Any], text: str | None) -> str:
    """Whether the program's text is the one verified: "same", "edited", or "none" where there is no text.

    An edited one that the record judges is one that "agrees" or "differs".
    """
    if not text:
        return "none"
    expected = (record.get("program") or {}).get("sha256")
    found, held = hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest(), record.get("edited") or {}
    if found == expected or held.get("sha256") != found or held.get("agree") is None:
        return "same" if found == expected else "edited"
    return "agrees" if held["agree"] else "differs"


def render_sheet(record: Mapping[str, Any], program_text: str | None = None) -> str:
    """The whole page. A record with less in it than `make` writes gives a page with less on it."""
    scene, state = scene_of(record), program_state(record, program_text)
    rows = view.finding_rows(record.get("findings") or [])
    with_choices(record, rows)
    values = _facts(record, rows, state) | _pictures(record, scene, rows, program_text if state == "same" else None)
    lines = _listing(record, program_text, state)
    values |= {"listing": lines, "program_state": state, "explained": any(row.sentence for row in lines)}
    values["longest"] = min(WIDEST, max((len(row.text) for row in lines if not row.folded), default=0))
    values |= {"hashes": view.hash_rows(record, state), "cautions": cautions, "foot_style": foot_style(values["file"])}
    return page("sheet.html", values | page_parts("sheet.js"))


def _facts(record: Mapping[str, Any], rows: list[Json], state: str) -> Json:
    """Everything on the sheet that is words and figures."""
    part, verdict = record.get("part") or {}, record.get("verification") or {}
    accept, uncut = cautions.acceptable_codes(record), left_out(record)
    return {
        "file": str((part.get("drawing") or {}).get("file") or "drawing"),
        "made": record.get("status") == "made",
        "program": record.get("program") or {},
        "units": part.get("units"),
        "headline": view.headline(record, state),
        "tiles": figures.with_sections(figures.tiles(record)),
        "built_in": (record.get("setup") or {}).get("built_in") or [],
        "grooves": view.groove_rows(record),
        "sets": view.set_rows(record),
        "tools": figures.tool_rows(record),
        "setup": figures.setup_rows(record),
        "operations": view.operation_rows(record),
        "findings": rows,
        "reasons": _reasons(rows, accept),
        "verdict": verdict,
        "verdict_rows": view.verdict_rows(record),
        "verdict_findings": view.finding_rows(verdict.get("findings") or []),
        "checks": _checks(record, uncut),
        "made_text": view.made_text(record),
    }


def _checks(record: Mapping[str, Any], uncut: frozenset[int]) -> list[Json]:
    """The rows of the inspection; `order` counts the grooves, so that the rows of each stay together on paper."""
    checks = checks_of(record)
    order = {number: at for at, number in enumerate(dict.fromkeys(c.groove for c in checks))}
    return [c.texts | {"uncut": c.groove in uncut, "order": order[c.groove]} for c in checks]


def _reasons(rows: list[Json], accept: frozenset[str]) -> list[Json]:
    """The stops with what to do about them; those of one code together, since what to do is the same."""
    alike: dict[str, list[Json]] = {}
    for row in rows:
        if row["level"] == "stop":
            alike.setdefault(row["code"], []).append(row)
    return [
        {"code": code, "findings": found, "remedy": cautions.cure(found, code in accept)}
        for code, found in alike.items()
    ]


def _pictures(record: Mapping[str, Any], scene: Scene | None, rows: list[Json], text: str | None) -> Json:
    """The pictures and, where there is a verified program, what the stepping script needs."""
    stage = stage_of(scene) if scene else None
    known = scene is not None and stage is not None
    # Where the part is known and no place on the sheet is meant, the part's own picture says it better.
    drawing = not known or any(r["at"] or r["choices"] for r in rows if r["level"] == "stop")
    return {
        "picture": part_picture(scene, stage, record.get("path"), _stopped_grooves(rows)) if scene and stage else None,
        "details": detail_pictures(scene) if scene else {},
        "fine": fine_operations(scene, stage) if scene and stage else frozenset(),
        "stepping": stepping(record, scene, stage, text) if known and scene and stage and text else None,
        "refusal": refusal_picture(record, rows) if drawing else None,
        "close": close_picture(record, rows),
    }


def _stopped_grooves(rows: list[Json]) -> frozenset[int]:
    """Numbers of the grooves that a stop speaks of."""
    return frozenset(r["groove"] for r in rows if r["level"] == "stop" and r["groove"])


def _listing(record: Mapping[str, Any], text: str | None, state: str) -> list[ListedLine]:
    """The program's lines; one that was edited since is listed without grooves, which would be those of another."""
    if text is None:
        return []
    known = record if state == "same" else {}
    dialect = str((record.get("program") or {}).get("dialect") or "")
    meanings, sentences = explained(text, dialect, (record.get("part") or {}).get("units"))
    return listing(text, known, meanings, sentences)
