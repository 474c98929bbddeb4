"""Millimetres or inches, and at which scale the view is drawn: all evidence on the sheet is weighed together.

    vote        one piece of evidence for a unit, with its weight and its words (`unit_evidence`)
    scale       drawn size over printed size, and what scale notes say (`sheet_scale`)
    answer      unit and factor, or the question that is left open (`units`)

Hands out `units.weigh_units`, `sheet_scale.drawn_scale`.
"""
