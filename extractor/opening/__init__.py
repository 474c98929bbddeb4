"""Opening the file: from DXF bytes to the strokes, texts and dimensions of a `Sheet`.

    entity     what the file holds; owner: the composite (block, dimension, hatch) that a stroke came from
    pen        what the linetype says: solid, centre, hidden, phantom (`linetypes`); role: what the layer's name hints
    stroke     a line or an arc on the plane of the sheet; chord error: how far chords lie off a curve
    window     a viewport of a layout, through which the drawing is seen
    census     how many entities the text names, so that none is lost in silence
    doubles    ink that is drawn more than once

In the order of the work: `fileform`, `unmarked`, `loading`, `census`, `expand`, `entities` (with `splines`, `hatches`),
`collect`, `doubles`, `segments`; `texts`, `dimension_entities` and `leaders` for what is written; `windows`: layouts.
"""
