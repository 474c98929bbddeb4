"""Details drawn larger: held against the view at the ring that they enlarge, and their dimensions applied there.

    ring        round a place of the view, with the letter of the detail (`details`)
    shape       of strokes that draw a place a known number of times as large (`same_shape`)

Hands out `details.heard_at_the_view`, `details.titled`.
"""
