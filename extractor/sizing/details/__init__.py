"""Details drawn larger: held against the view at the ring that they enlarge, and their dimensions applied there.

    ring        round a place of the view, with the letter of the detail (`enlarged`)
    shape       of strokes that draw a place a known number of times as large (`same_shape`)
    sizes       of a groove that a detail draws otherwise (`same_shape`)
    unheaded    groove drawn larger that nothing on the sheet names (`unheaded`), or a heading without its place
    like none   groove drawn larger with a size that no groove of the view has (`like_none`)
    heading     of a detail: its letter and its scale (`headings`)

Hands out `details.heard_at_the_view`, `headings.titled`.
"""
