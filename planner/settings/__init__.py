"""The shop file: TOML text to a checked `Shop`, with the defaults where it is silent.

    key        a line of the file: its kind, bounds and default in mm and in inch, and its phrase (`shopkeys`)
    told       what the file says outright; unsaid: what a default stands in for, so that the plan can say it
    fault      what can't be used, with its line; all faults are named at once (`shopfile`)
    clash      values that can't be true together though each may be (`contradictions`)
    family     materials that share speed, force and feed (`materials`); a name leads to one (`material_known`) by the
               names that people write and by the systems' own rules (`material_rules`)
    settled    the material once drawing and shop have been heard, and the feeds that follow from it (`settled`)
    built in   the inserts of a shop that gave none (`builtin`)
    shipped    what is data and no code: `keys.toml`, `materials.toml`, `inserts.toml`

Lengths are in the file's units until `shopfile` turns them into the drawing's, once; defaults are round in each.
"""
