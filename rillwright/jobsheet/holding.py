"""What holds the part in its picture: jaws, the bar between, the tailstock's centre, with stick-out and length."""

from markupsafe import Markup

from rillwright.jobsheet.scene import Scene
from rillwright.jobsheet.stage import Stage
from rillwright.jobsheet.text import length_text
from rillwright.svg import Dot, dimension, group, label, line, outline, tag

UNDER, DROP = 26.0, 7.0
"""Picture units from a line down to the base line of a text below it, and of one beside it."""

# The break in a shortened bar: how far its zigzag goes aside, and at which quarters of its height.
ASIDE = 8
ZIGZAG = ((0, 0.0), (0, 1.0), (-ASIDE, 1.5), (ASIDE, 2.5), (0, 3.0), (0, 4.0))
# The least width and height of a jaw as drawn, and its usual height as a share of the radius that it holds.
LEAST_WIDE, LEAST_TALL, JAW_SHARE = 20.0, 30.0, 0.45

LETTER = 11.0
"""Picture units that a letter of a dimension's text takes across, at most on the whole."""


def holding(scene: Scene, stage: Stage) -> Markup:
    """Everything that the part is held by, as far as the record knows it."""
    return _jaws(scene, stage) + _centre(scene, stage)


def _jaws(scene: Scene, stage: Stage) -> Markup:
    """Bar, jaws and the dimensions of stick-out and length."""
    parts: list[Markup] = []
    if stage.jaw_z is not None:
        parts += [_bar(scene, stage), *_jaw_blocks(stage)]
    base = stage.foot + 34
    z0, back = stage.view.x(0), stage.view.x(-scene.length)
    parts.append(_level((back, base), (z0, base), f"length {length_text(scene.length, scene.units)}"))
    if stage.jaw_z is not None and scene.stick_out is not None:
        jaw = stage.view.x(stage.jaw_z)
        note = ", drawn shortened" if stage.shortened else ""
        held = f", {length_text(scene.in_jaws, scene.units)} in the jaws" if scene.in_jaws else ""
        words = f"stick-out {length_text(scene.stick_out, scene.units)}{note}{held}"
        parts += [line((jaw, stage.bottom), (jaw, base + 46), "extension")]
        parts.append(_level((jaw, base + 38), (z0, base + 38), words, lowest=True))
    # No extension line runs on through the text of the dimension below.
    deep = {z0: 46, back: 8}
    parts += [line((x, stage.bottom + 8), (x, base + more), "extension") for x, more in deep.items()]
    return group(*parts, class_="holding")


def _level(left: Dot, right: Dot, text: str, *, lowest: bool = False) -> Markup:
    """A level dimension with its text over it; where that is too short, under the `lowest` one, else to its right."""
    if len(text) * LETTER < right[0] - left[0]:
        return dimension(left, right, text)
    if lowest:
        return dimension(left, right, text, shift=(0.0, UNDER))
    # The text stands behind the heads, which lie outside of a short dimension.
    return dimension(left, right, text, "start", ((right[0] - left[0]) / 2 + 36, DROP))


def _centre(scene: Scene, stage: Stage) -> Markup:
    """The tailstock's centre (60 degrees, as centre holes have) in the front face, where there is one."""
    r = scene.tailstock / 2
    if not r:
        return Markup("")
    points = [(-r * 3**0.5, 0.0), (0.0, r), (stage.z_right, r), (stage.z_right, 0.0)]
    shape = outline(stage.view.dots(points + [(z, -r) for z, r in reversed(points)]), closed=True)
    return group(tag("title", "Tailstock centre"), tag("path", d=shape, class_="jaw"))


def _bar(scene: Scene, stage: Stage) -> Markup:
    """What sticks out between part and jaws, and on into them, with a break where it is shortened."""
    back, left = -scene.length, stage.z_left
    if left >= back:
        return Markup("")
    r, low = stage.jaw_radius, 0.0 if stage.half else -stage.jaw_radius
    box = stage.view.dots([(back, r), (left, r), (left, low), (back, low)])
    edges = outline(box[:2]) + (outline(box[2:]) if low else "")
    parts = [tag("path", d=outline(box, True), class_="bar-fill"), tag("path", d=edges, class_="bar")]
    if stage.shortened and stage.jaw_z is not None:
        x = stage.view.x((back + stage.jaw_z) / 2)
        top, bottom = stage.view.y(r) - 8, stage.view.y(low) + 8
        rise = (bottom - top) / 4
        zigzag = [(x + aside, top + quarters * rise) for aside, quarters in ZIGZAG]
        parts.append(tag("path", d=outline(zigzag), class_="break"))
    return group(*parts)


def _jaw_blocks(stage: Stage) -> list[Markup]:
    """The jaws as hatched blocks, above and, in a whole view, below."""
    assert stage.jaw_z is not None
    left, right = stage.left, stage.view.x(stage.jaw_z)
    grip = stage.view.y(stage.jaw_radius)
    tall = max(LEAST_TALL, min(JAW_SHARE * stage.jaw_radius * stage.view.scale, grip - stage.top - 4))
    tops = [grip - tall] if stage.half else [grip - tall, stage.view.y(-stage.jaw_radius)]
    width = max(right - left, LEAST_WIDE)
    blocks = [tag("rect", x=right - width, y=top, width=width, height=tall, class_="jaw") for top in tops]
    return [*blocks, label((right - width / 2, grip - tall - 8), "jaws", "ts")]
