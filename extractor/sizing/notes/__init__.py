"""Notes held against the groove, the land or the corner that they are tied to.

    tied        by a leader's tip, else by where the note stands (`note_places`); held there: `note_checks`
    fault       what in a reading of a note does not fit a groove (`note_faults`), and what is said (`note_findings`)
    call-out    of a standard groove, `DIN 509` (`callouts`); corner: a radius for corners drawn sharp (`corners`)
    other       a thread, a chamfer, a place, a change (`other_notes`); led: words that nothing takes up (`led_words`)
    lettered    a legend, `A = 4 x Ø33`, and the letters at the grooves that it sizes (`lettered_notes`)
    of a dimension or leader: a text that is a note, or no size of what it measures (`dimension_notes`)

Hands out `note_checks.note_findings`, `other_notes.other_findings`, `corners.corner_tolerances`.
"""
