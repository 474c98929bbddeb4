"""The figures on the sheet: units, scale, printed sizes, tolerances, and the grooves that they belong to.

Rooms, in the order in which they stand on one another: `lettering` (a text for itself), `scale`, `tolerances`,
`measured` (what a size measures), `ends` (Z0), `sentences`, `notes` at grooves, `sizes` of dimensions, `tables`,
`details`, `remaining`. Each opens with its glossary. `dimensions` puts them together: `tie_dimensions` gives a part its
tolerances and tells what contradicts it.

    held        compared with what is drawn; a contradiction is a stop

In the order of the work: `scale.units`, `ends.front`, `dimensions` (with `measured.ties`, `sizes.said`,
`sentences.general`, `measured.like`), `notes`, `tables.groove_table`, `details`; then `remaining.unheard` (sizes that
nothing took up), `words_beside`, and the doubts about the whole reading, `sizes.off_outline` and `sizes.doubt`; last
`remaining.text_fates`. What a size may be is decided in `extractor.limits`.
"""
