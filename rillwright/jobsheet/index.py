"""The index of a batch: a card for each part with a thumbnail, the verdict and the time."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any
from urllib.parse import quote

from markupsafe import Markup

from rillwright.jobsheet.figures import caution_count
from rillwright.jobsheet.picture import body, mirrored, recess_points, set_class
from rillwright.jobsheet.refusal import small_picture
from rillwright.jobsheet.scene import Scene, operations, scene_of
from rillwright.jobsheet.sheet import page, page_parts
from rillwright.jobsheet.svg import PictureScale, outline, picture, tag
from rillwright.jobsheet.text import time_text
from rillwright.jobsheet.view import headline

WIDTH, HEIGHT = 260.0, 140.0

Json = dict[str, Any]

MARK = b'<p class="mark">Rillwright job sheets</p>'
"""What is in every page over several sheets, and hardly in a page that somebody else put there."""


def is_free(page: Path) -> bool:
    """True if a page over several sheets may go there: there is none, or one of ours, which is then replaced."""
    return not page.exists() or (page.is_file() and MARK in page.read_bytes())


def thumbnail(scene: Scene) -> Markup:
    """The part small: its outline and its grooves in the colours of their sets."""
    margin = 10.0
    tall = scene.outer_diameter
    scale = min((WIDTH - 2 * margin) / scene.length, (HEIGHT - 2 * margin) / tall)
    view = PictureScale(scale, (WIDTH + scene.length * scale) / 2, HEIGHT / 2)
    areas = []
    for recess in scene.recesses:
        points = recess_points(scene, recess)
        d = outline(view.dots(points), True) + outline(view.dots(mirrored(points)), True)
        areas.append(tag("path", d=d, class_=f"area {set_class(recess.set_index)}"))
    return picture(WIDTH, HEIGHT, "", body(view, scene.outline, scene.bore), *areas, aria_hidden="true", class_="thumb")


def card(stem: str, record: Mapping[str, Any]) -> Json:
    """One part of the batch as the template wants it."""
    part, scene = record.get("part") or {}, scene_of(record)
    stops = [f["message"] for f in record.get("findings") or [] if f["level"] == "stop"]
    return {
        # By bytes, since a name need not be text at all on the file systems of a shop.
        "link": quote(f"{stem}.html".encode("utf-8", "surrogateescape")),
        "file": str((part.get("drawing") or {}).get("file") or stem),
        "headline": headline(record),
        "thumb": thumbnail(scene) if scene else small_picture(record, WIDTH, HEIGHT),
        "grooves": len(part.get("grooves") or []),
        "operations": len(operations(record)),
        "time": time_text((record.get("plan") or {}).get("seconds")) if record.get("status") == "made" else "",
        "cautions": caution_count(record) if record.get("status") == "made" else 0,
        "why": stops[0] if stops else "",
    }


def render_index(records: Sequence[tuple[str, Mapping[str, Any]]], title: str = "Job sheets") -> str:
    """The page for a batch: `records` are pairs of the sheet's name without its ending, and the record."""
    cards = [card(stem, record) for stem, record in records]
    seconds = sum(
        (record.get("plan") or {}).get("seconds") or 0.0 for _, record in records if record.get("status") == "made"
    )
    made = sum(record.get("status") == "made" for _, record in records)
    values = {"cards": cards, "title": title, "made": made, "total": len(cards), "time": time_text(seconds)}
    return page("index.html", values | page_parts(""))
