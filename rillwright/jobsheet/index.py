"""The index of a batch: a card for each part with a thumbnail, the verdict and the time."""

from collections.abc import Sequence
from pathlib import Path
from urllib.parse import quote

from markupsafe import Markup

from rillwright.jobsheet.figures import caution_count, seconds_of
from rillwright.jobsheet.picture import body, mirrored, recess_points, set_class
from rillwright.jobsheet.refusal import small_picture
from rillwright.jobsheet.scene import Scene, scene_of
from rillwright.jobsheet.sheet import page, page_parts
from rillwright.jobsheet.text import time_text
from rillwright.jobsheet.view import headline
from rillwright.records.jsonform import Json
from rillwright.records.record import Record
from rillwright.svg import PictureScale, outline, picture, tag

WIDTH, HEIGHT = 260.0, 140.0


THUMB_MARGIN = 10.0
MARK = b'<p class="mark">Rillwright job sheets</p>'
"""What is in every page over several sheets, and hardly in a page that somebody else put there."""


def is_free(page: Path) -> bool:
    """True if a page over several sheets may go there: nothing is there yet, or one of ours, which is then replaced."""
    return not page.exists() or (page.is_file() and MARK in page.read_bytes())


def thumbnail(scene: Scene) -> Markup:
    """The part drawn small: its outline, and its grooves in the colours of their sets."""
    margin = THUMB_MARGIN
    tall = scene.outer_diameter
    scale = min((WIDTH - 2 * margin) / scene.length, (HEIGHT - 2 * margin) / tall)
    view = PictureScale(scale, (WIDTH + scene.length * scale) / 2, HEIGHT / 2)
    areas = []
    for recess in scene.recesses:
        points = recess_points(scene, recess)
        d = outline(view.dots(points), True) + outline(view.dots(mirrored(points)), True)
        areas.append(tag("path", d=d, class_=f"area {set_class(recess.set_index)}"))
    return picture(WIDTH, HEIGHT, "", body(view, scene.outline, scene.bore), *areas, aria_hidden="true", class_="thumb")


def card(stem: str, record: Record) -> Json:
    """One part of the batch as the template wants it."""
    scene, stops = scene_of(record), record.reasons
    return {
        # By bytes, since a name need not be text at all on the file systems of a shop.
        "link": quote(f"{stem}.html".encode("utf-8", "surrogateescape")),
        "file": record.part.drawing.file or stem,
        "headline": headline(record),
        "thumb": thumbnail(scene) if scene else small_picture(record.drawn, WIDTH, HEIGHT),
        "grooves": len(record.part.grooves),
        "operations": len(record.operations),
        "time": time_text(seconds_of(record)) if record.made else "",
        "cautions": caution_count(record) if record.made else 0,
        "why": stops[0] if stops else "",
    }


def render_index(records: Sequence[tuple[str, Record]], title: str = "Job sheets") -> str:
    """The page for a batch: `records` are pairs of the sheet's name without its ending, and the record."""
    cards = [card(stem, record) for stem, record in records]
    made = [record for _, record in records if record.made]
    seconds = sum(seconds_of(record) or 0.0 for record in made)
    values = {"cards": cards, "title": title, "made": len(made), "total": len(cards), "time": time_text(seconds)}
    return page("index.html", values | page_parts(""))
