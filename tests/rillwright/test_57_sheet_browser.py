"""Sheets in a real browser: no complaint, no request leaves the file, no barrier, hover, stepping, paper.

Barriers: axe-core, rules of WCAG 2.2 A and AA and its best practices; nothing at all may be found.
"""

import json
import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect
from support.browser import browser, chromium, measure, visit
from support.forms import make_drawing, typed
from support.parts import part_of, row
from support.records import made, refused
from support.worked_out import every_side, worked_out

from extractor.codes import DrawingCode
from extractor.finding import Finding, Level
from planner import parse_shop
from planner.codes import PlanCode
from rillwright.jobsheet.index import render_index
from rillwright.jobsheet.overview import Entry, Life, OverviewPage, render_overview
from rillwright.jobsheet.sheet import render_sheet
from rillwright.settings import Settings

expect.set_options(timeout=30_000)
CUT, OVER = measure("cut"), measure("over")
SAMPLES = sorted((Path(__file__).parents[2] / "drawings").glob("*.dxf"))
DESK, PHONE = {"width": 1280, "height": 900}, {"width": 375, "height": 740}
TABLET, UPRIGHT = {"width": 1024, "height": 768}, {"width": 768, "height": 1024}
SIZES = {"desk": DESK, "tablet": TABLET, "upright": UPRIGHT, "phone": PHONE}
EIGHT = """
units = "mm"
[machine]
stick_out = 170.0
[material]
name = "C45"
[[tools]]
station = 3
width = 2.0
corner_radius = 0.2
max_depth = 12.0
[[tools]]
station = 5
width = 3.0
corner_radius = 0.2
max_depth = 12.0
reference = "near"
"""
"""A shop whose program of eight grooves, every plunge written out, has more than 100 blocks."""
AT, WORDS = (
    "2031-05-06T07:08:09+00:00",
    "Groove 1 is narrower than the narrowest insert: an insert of 1.1 mm is needed.",
)
RESULTS = [("ring", "made"), ("x" * 120, "refused"), ("<script>", "failed")]
CAUTIONS = [
    Finding(Level.CAUTION, DrawingCode.TURNED_BY_SYMMETRY, "Only symmetry says it is turned.", (3, 4), groove=2),
    Finding(Level.NOTE, DrawingCode.GAPS_CLOSED, "2 gaps were closed."),
]


def test_without_a_browser_and_the_right_to_bring_one_the_tests_say_what_to_do(monkeypatch):
    monkeypatch.setattr("support.browser.found", lambda: None)
    monkeypatch.setattr("os.geteuid", lambda: 1000)
    with pytest.raises(RuntimeError, match="apt-get install chromium"):
        chromium.__wrapped__()


def hand_made():
    """Sheets by name: a usual part, one with many fine grooves, a short fat one with a bore, an odd name, refusals."""
    spots = [*row(4, first=-10, pitch=5, width=3, floor=34), (-40, -42, 36), (-50, -54, 30, {"corner_radius": 0.4})]
    usual = made(part_of(spots), [(1, 2, 3, 4), (5,), (6,)], findings=CAUTIONS)
    fine = made(part_of(row(30, -5, 2.5, 1.3, 18), diameter=20, length=90), [tuple(range(1, 31))])
    disc = made(part_of([(-3, -5, 90), (-8, -10, 90)], diameter=120, length=14, bore=40), [(1, 2)])
    odd = made(part_of([(-0.3, -0.4, 1.2)], diameter=1.5, length=2, units="in"), [(1,)], "<script>boom()</script>.dxf")
    long = made(part_of([(-10, -13, 34)]), [(1,)], f"{'long_name_' * 12}.dxf", CAUTIONS)
    lost = refused(
        [Finding(Level.STOP, PlanCode.NO_TOOL, "Groove 1 needs a narrower one.", groove=1)], part=part_of(spots)
    )
    bare = {"schema": 1, "status": "refused", "part": {}, "findings": []}
    eights = [*row(4, -6, 5, 2, 34), (-30, -34, 33), (-40, -43, 32), (-48, -50, 36), (-55, -58, 30)]
    eight = worked_out(part_of(eights, length=150), "plunge", parse_shop(EIGHT, "shop.toml", "mm"))
    return {
        "usual": usual,
        "eight": eight,
        "fine": fine,
        "disc": disc,
        "odd": odd,
        "long": long,
        "refused": (refused(), None),
        "lost": (lost, None),
    } | {"bare": (bare, None)}


@pytest.fixture(scope="module")
def records():
    return hand_made()


@pytest.fixture(scope="module")
def folder(tmp_path_factory, records):
    path = tmp_path_factory.mktemp("sheets")
    for name, (record, text) in records.items():
        (path / f"{name}.html").write_text(render_sheet(typed(record), text))
    (path / "index.html").write_text(render_index([(name, typed(record)) for name, (record, _) in records.items()]))
    entries = [
        Entry(
            name=f"{name}.dxf",
            state=state,
            link=f"{name}.html",
            program="a.nc",
            program_link="a.nc",
            finished=AT,
            words=WORDS,
            cautions=2,
            questions=1,
        )
        for name, state in RESULTS
    ]
    checks = [
        Entry(name="ring.tap", state=state, link="", program="", finished=AT, words=WORDS)
        for state in ("agrees", "differs", "not judged")
    ]
    shown = OverviewPage(
        counts={"made": 7, "refused": 1, "failed": 1},
        results=entries,
        checks=checks,
        edited=checks,
        kept=checks,
        untaken=[("part.dwg", "a DWG is not read")],
        waiting=["next.dxf"],
        trouble=["The inbox can't be read."],
        life=Life(at_work=True, since=AT, sign=AT, longest=180.0),
        pages=[("1", ""), ("2", "index.2.html")],
    )
    (path / "overview.html").write_text(render_overview(shown))
    return path


@pytest.fixture(scope="module")
def running():
    with browser() as one:
        yield one


@pytest.fixture(scope="module")
def reader(running):
    """One page that opens one sheet after another."""
    with visit(running, Path(__file__), viewport=DESK) as seen:
        yield seen


def opened(reader, path, viewport=DESK, scheme="light"):
    """The page with a sheet newly open in it."""
    reader.page.emulate_media(media="null", color_scheme=scheme)
    reader.page.set_viewport_size(viewport)
    reader.asked.clear()
    reader.complaints.clear()
    reader.page.goto(path.resolve().as_uri())
    return reader


def barriers(page):
    """Everything that axe-core finds, whatever weight it gives it."""
    found = Axe().run(page).response["violations"]
    return [(v["id"], v["impact"], [n["html"][:120] for n in v["nodes"][:3]]) for v in found]


def whole(seen, path, look_for_barriers=True):
    """What every sheet must be when it is open."""
    assert seen.complaints == []
    assert seen.asked == [path.resolve().as_uri()]
    assert not look_for_barriers or barriers(seen.page) == []
    width = seen.page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert width <= 0, "the page scrolls sideways"


BARRED = ("usual", "refused", "index", "overview")
"""Pages that between them hold every kind of section, looked at for barriers in light and dark."""

NAMES = ("usual", "eight", "fine", "disc", "odd", "long", "refused", "lost", "bare")


def test_every_page_has_its_names():
    assert set(NAMES) == set(hand_made())


@pytest.mark.parametrize("name", [*NAMES, "index", "overview"])
def test_each_sheet_is_whole_at_every_size_and_no_label_lies_on_another(reader, folder, name):
    path = folder / f"{name}.html"
    seen = opened(reader, path)
    whole(seen, path, look_for_barriers=name in BARRED)
    for size in SIZES.values():
        seen.page.set_viewport_size(size)
        assert seen.page.evaluate(CUT) == []
        assert seen.page.evaluate(OVER) == []
        width = seen.page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        assert width <= 0, "the page scrolls sideways"
    seen.page.emulate_media(color_scheme="dark")
    assert name not in BARRED or barriers(seen.page) == []
    assert seen.complaints == []


def test_on_a_tablet_picture_slider_and_block_stand_on_one_screen(reader, folder):
    page = opened(reader, folder / "usual.html", TABLET).page
    slide(page, 12)
    page.evaluate(
        "document.documentElement.style.scrollBehavior = 'auto'; document.getElementById('part').scrollIntoView()"
    )
    for part in ("#part-picture", "#step", "#next", "#now code", "#listing li.current"):
        box = page.locator(part).bounding_box()
        assert box["y"] >= 0, part
        assert box["y"] + box["height"] <= TABLET["height"], part
    page.locator(".groove[data-grooves='5'] .balloon").click()
    line = page.locator("#listing li.lit").first
    box, frame = line.bounding_box(), page.locator("#listing").bounding_box()
    assert frame["y"] - 1 <= box["y"] <= frame["y"] + frame["height"] - box["height"] + 1
    assert page.locator("#about code").first.inner_text() == line.locator("code").inner_text()


def test_the_picture_is_made_larger_by_button_and_key_and_whole_again(reader, folder):
    page = opened(reader, folder / "fine.html", PHONE).page
    picture = page.locator("#part-picture")
    first = picture.bounding_box()["width"]
    page.locator("[data-zoom='1']").click()
    assert picture.bounding_box()["width"] > 1.2 * first
    page.locator("[aria-label='Picture of the part']").focus()
    page.keyboard.press("+")
    assert picture.bounding_box()["width"] > 1.8 * first
    page.keyboard.press("0")
    assert picture.bounding_box()["width"] == pytest.approx(first, rel=0.05)
    page.locator("[data-zoom='0']").click()
    box, frame = picture.bounding_box(), page.locator("[aria-label='Picture of the part']").bounding_box()
    assert box["width"] <= frame["width"] + 1


def test_what_is_too_small_to_see_is_ringed_with_the_letter_that_its_detail_has(reader, folder):
    page = opened(reader, folder / "eight.html").page
    rings = page.locator(".enlarged-rings text").all_text_contents()
    assert rings == page.locator(".enlarged figcaption strong").all_inner_texts() == ["A", "B", "C", "D", "E"]
    page.locator("[data-zoom='1']").click()
    assert page.evaluate(OVER) == []
    assert page.locator(".enlarged figure").first.inner_text().split(": ")[1].startswith("groove 1, width 2.000, floor")
    usual = opened(reader, folder / "usual.html").page
    assert usual.locator(".enlarged").count() == 0


def test_remarks_are_folded_and_unfolded_and_copied_all_the_same(reader, folder):
    page = opened(reader, folder / "eight.html").page
    remark = page.locator("#listing .folded").first
    assert not remark.is_visible()
    page.locator(".fold button").click()
    assert remark.is_visible()
    assert page.locator(".fold button").get_attribute("aria-expanded") == "true"


def test_a_tile_leads_where_it_says(reader, folder):
    page = opened(reader, folder / "usual.html").page
    for name, section in (("Cautions", "findings"), ("Units", "part"), ("Program time", "operations")):
        assert page.locator(".tile", has_text=name).locator("a").get_attribute("href") == f"#{section}"
        assert page.locator(f"#{section} h2").count() == 1


def test_before_the_first_known_place_no_place_is_told(reader, folder):
    page = opened(reader, folder / "eight.html").page
    slide(page, 0)
    told = [page.locator("#now").inner_text()]
    for _ in range(12):
        page.locator("#next").click()
        told.append(page.locator("#now").inner_text())
    assert not any("10000" in one for one in told)
    assert any("not told yet" in one for one in told)
    assert "X42.000" in told[-1] or "X200" in told[-1]


# Two samples: what the others differ in is drawn by the sheets above.
@pytest.mark.parametrize("drawing", SAMPLES[1:6:4], ids=lambda p: p.stem)
def test_each_sample_gets_a_whole_sheet(reader, tmp_path, drawing):
    record = make_drawing(drawing, tmp_path, Settings())
    path = tmp_path / f"{drawing.stem}.html"
    seen = opened(reader, path)
    whole(seen, path, look_for_barriers=False)
    assert seen.page.evaluate(OVER) == []
    seen.page.set_viewport_size(TABLET)
    assert seen.page.evaluate(CUT) == []
    seen.page.set_viewport_size(DESK)
    assert seen.page.locator("h1").inner_text() == drawing.name
    assert seen.page.locator(".groove").count() == len(record["part"]["grooves"])
    if record["status"] == "made":
        assert record["verification"]["agree"]
        steps_cut_what_the_record_says(seen.page, record)


def steps_cut_what_the_record_says(page, record):
    """Stepped to the end, each groove of the picture is open down to the floor that the verification found."""
    slide(page, int(page.get_attribute("#step", "max")))
    k, x0, y0, depth_of = geometry(page)
    for match in record["verification"]["grooves"]:
        cut = match["program"]
        x = x0 + k * (cut["z_near"] + cut["z_far"]) / 2
        assert depth_of(x) == pytest.approx(y0 - k * cut["floor_diameter"] / 2, abs=0.6)


def geometry(page):
    """Scale and origin of the stepping picture, and the depth of the cut at a place, as the browser sees it."""
    data = json.loads(page.inner_text("#stepping") or page.evaluate("document.getElementById('stepping').textContent"))
    probe = """([x, from, to]) => {
        const path = document.getElementById("cuts"), svg = path.ownerSVGElement;
        const inside = (y) => { const p = svg.createSVGPoint(); p.x = x; p.y = y; return path.isPointInFill(p); };
        let low = from;
        for (let y = from; y < to; y += 0.25) { if (inside(y)) { low = y; } }
        return low;
    }"""
    return data["k"], data["x0"], data["y0"], lambda x: page.evaluate(probe, [x, data["top"] + 1, data["y0"]])


def slide(page, value):
    page.locator("#step").evaluate("(e, v) => { e.value = v; e.dispatchEvent(new Event('input')); }", value)


def lit(page):
    return page.evaluate(
        "[...document.querySelectorAll('.lit')].map(e => e.tagName.toLowerCase() + ':' + e.dataset.grooves)"
    )


def test_pointing_at_a_groove_lights_its_row_its_lines_and_its_set(reader, folder):
    seen = opened(reader, folder / "usual.html", DESK)
    page = seen.page
    page.locator(".groove[data-grooves='2'] .balloon").hover()
    assert {"g:2", "tr:2", "li:1 2 3 4"} <= set(lit(page))
    assert page.locator(".groove.kin").count() == 3
    about = page.locator("#about").inner_text()
    assert about.startswith("Groove 2: Z-15.000 to Z-18.000, width 3.000, floor diameter 34.000, set A")
    page.locator("h1").hover()
    assert lit(page) == []


def test_a_tap_keeps_a_groove_lit_until_the_next(running, folder):
    with visit(running, folder / "usual.html", viewport=PHONE, has_touch=True) as seen:
        page = seen.page
        page.locator(".pick[data-pick='5']").tap()
        assert {"g:5", "li:5"} <= set(lit(page))
        assert page.locator(".pick[data-pick='5']").get_attribute("aria-pressed") == "true"
        page.locator(".pick[data-pick='5']").tap()
        assert page.locator(".pick[data-pick='5']").get_attribute("aria-pressed") == "false"


def test_on_a_phone_the_picture_starts_at_the_front_face_and_a_refusal_at_its_place(running, folder):
    at = "[...document.querySelectorAll('.scroll')].map(e => [e.scrollLeft, e.scrollWidth - e.clientWidth])"
    with visit(running, folder / "usual.html", viewport=PHONE) as seen:
        left, most = seen.page.evaluate(at)[0]
        assert left >= most - 1 > 50
    with visit(running, folder / "refused.html", viewport=PHONE) as seen:
        ring = seen.page.locator(".ring").first.bounding_box()
        assert 0 <= ring["x"] <= 375 - ring["width"]


def test_the_keyboard_does_what_pointing_does(reader, folder):
    seen = opened(reader, folder / "usual.html", DESK)
    page = seen.page
    page.locator(".groove[tabindex='0']").focus()
    assert "tr:1" in lit(page)
    page.keyboard.press("ArrowLeft")
    assert "tr:2" in lit(page)
    page.keyboard.press("End")
    assert "tr:6" in lit(page)
    assert page.locator(".groove[tabindex='0']").get_attribute("data-grooves") == "6"
    page.keyboard.press("Enter")
    page.locator("#listing").focus()
    assert "tr:6" in lit(page)
    page.keyboard.press("Escape")
    assert lit(page) == []
    page.keyboard.press("Home")
    page.keyboard.press("ArrowDown")
    assert page.locator("li.current").get_attribute("data-line") == "2"
    assert page.locator("#words").inner_text().startswith("Line 2")


def test_stepping_moves_the_tool_and_takes_metal_block_by_block(reader, folder, records):
    seen = opened(reader, folder / "usual.html", DESK)
    page = seen.page
    slide(page, 0)
    assert page.locator("#cuts").get_attribute("d") == "M0 0"
    places = set()
    for step in range(1, 16):
        page.locator("#next").click()
        places.add(page.locator(".tool:visible").first.get_attribute("transform") if step > 3 else None)
    assert len(places) > 4
    assert page.locator("li.current").get_attribute("data-line") == "11"
    assert "X3" in page.locator("#now").inner_text()
    k, x0, y0, depth_of = geometry(page)
    assert y0 - k * 20 < depth_of(x0 + k * -11.5) <= y0 - k * 17 + 0.5
    assert depth_of(x0 + k * -41) < y0 - k * 20.5
    steps_cut_what_the_record_says(page, records["usual"][0])
    assert seen.complaints == []


def test_stepping_opens_grooves_on_every_side(reader, tmp_path):
    face = {"where": "face", "mouth_diameter": 40.0}
    spots = [(0, -4, 34, face), (-12, -15, 52), (-10, -12, 26, {"where": "inside"})]
    record, text = worked_out(part_of(spots, diameter=60, bore=20), "two-block", every_side())
    (tmp_path / "sides.html").write_text(render_sheet(typed(record), text))
    probe = """([x, y]) => {
        const path = document.getElementById("cuts"), p = path.ownerSVGElement.createSVGPoint();
        p.x = x; p.y = y;
        return path.isPointInFill(p);
    }"""
    seen = opened(reader, tmp_path / "sides.html", DESK)
    page = seen.page
    k, x0, y0, _ = geometry(page)

    def is_open(z, diameter):
        return page.evaluate(probe, [x0 + k * z, y0 - k * diameter / 2])

    slide(page, 0)
    assert not any(is_open(z, d) for z, d in ((-2, 37), (-13.5, 56), (-11, 23)))
    slide(page, int(page.get_attribute("#step", "max")))
    assert all(is_open(z, d) for z, d in ((-3.9, 37), (-13.5, 52.2), (-11, 25.8)))
    assert not any(is_open(z, d) for z, d in ((-4.2, 37), (-2, 40.6), (-2, 33.4), (-13.5, 51.6), (-11, 26.4), (-8, 56)))


def test_a_word_under_the_pointer_is_explained_first(reader, folder):
    seen = opened(reader, folder / "usual.html", DESK)
    word = seen.page.locator("#L11 .word", has_text="P1000")
    meaning = word.get_attribute("title")
    word.hover()
    assert "1.000" in meaning
    assert seen.page.locator("#words p").first.inner_text() == f"P1000 {meaning}"
    assert seen.page.locator("#words dt").all_inner_texts() == [
        "G75",
        "X34.000",
        "Z-28.000",
        "P1000",
        "Q5000",
        "F0.08",
    ]


def test_a_line_of_the_program_takes_the_tool_there(reader, folder):
    seen = opened(reader, folder / "usual.html", DESK)
    seen.page.locator("#L9 .word").first.click()
    assert "line 9" in seen.page.locator("#now").inner_text()


def test_run_steps_by_itself_and_can_be_halted(reader, folder):
    seen = opened(reader, folder / "usual.html", DESK)
    page = seen.page
    slide(page, 0)
    page.locator("#play").click()
    expect(page.locator("#step")).not_to_have_value("0")
    page.locator("#play").click()
    halted = page.locator("#step").input_value()
    page.wait_for_timeout(400)
    assert page.locator("#step").input_value() == halted


def test_the_program_is_copied_as_it_stands(running, folder, records):
    with visit(
        running, folder / "usual.html", viewport=DESK, permissions=["clipboard-read", "clipboard-write"]
    ) as seen:
        seen.page.locator("#copy").click()
        expect(seen.page.locator("#copy")).to_have_text("Copied")
        assert seen.page.evaluate("navigator.clipboard.readText()") == records["usual"][1]


def test_without_script_the_sheet_is_a_whole_still_picture(running, folder):
    with visit(running, folder / "usual.html", viewport=DESK, java_script_enabled=False) as seen:
        page = seen.page
        assert not page.locator("#step").is_visible()
        assert not page.locator("#copy").is_visible()
        assert page.locator(".groove").count() == 6
        assert page.locator(".tool:visible").count() == 1
        assert page.locator("#inspection tbody tr").count() == 19
        assert "G75" in page.locator("#listing").inner_text()
        assert seen.complaints == []


def test_a_name_that_is_a_script_is_only_a_name(reader, folder):
    seen = opened(reader, folder / "odd.html", DESK)
    assert seen.page.locator("h1").inner_text() == "<script>boom()</script>.dxf"
    assert seen.complaints == []


def test_the_policy_stops_a_script_that_gets_in_all_the_same(running, folder):
    evil = (folder / "usual.html").read_text().replace("</main>", "<script>document.title = 'in'</script></main>")
    (folder / "evil.html").write_text(evil)
    with visit(running, folder / "evil.html") as seen:
        assert seen.page.title() != "in"
        assert any("Content Security Policy" in c for c in seen.complaints)


@pytest.mark.parametrize("name", ["usual", "eight", "fine", "refused"])
def test_paper_gets_two_pages_and_nothing_is_cut_off(reader, folder, name):
    seen = opened(reader, folder / f"{name}.html", scheme="dark")
    page = seen.page
    if name == "usual":
        slide(page, 3)
    for size, across in (("A4", 210), ("Letter", 215.9)):
        pages = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=size)))
        assert 1 <= pages <= (6 if name == "fine" else 2)
        # The printable width in CSS pixels: the paper less 10 mm on either side.
        page.set_viewport_size({"width": int((across - 20) * 96 / 25.4), "height": 1000})
        page.emulate_media(media="print")
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
        wide = (
            "[...document.querySelectorAll('.wide, .scroll, .listing')].filter(e => e.scrollWidth > e.clientWidth + 1)"
        )
        assert page.evaluate(f"{wide}.map(e => e.getAttribute('aria-label'))") == []
        assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
        assert not page.locator(".jump").is_visible()
        assert page.evaluate(OVER) == []
        page.emulate_media(media="null")


def test_on_paper_the_rows_of_a_groove_stay_together(reader, folder):
    page = opened(reader, folder / "eight.html").page
    page.emulate_media(media="print")
    kept = page.locator("#inspection tbody").evaluate_all("all => all.map(e => getComputedStyle(e).breakInside)")
    assert kept == ["avoid"] * 8
