"""The figures on the sheet: units, scale, printed sizes, tolerances, and the grooves that they belong to.

    printed     a text taken apart by the `grammar`: size, sign, count, deviations, tolerance class (`printed`)
    pointer     a text with the tip of its leader; note: a sentence at a groove (`groove_notes`, `callouts`), or one
                that nobody here understands (`could_size`)
    landmark    a place of the part that a dimension may end at: an end, a wall, a middle, a corner
    tie         the feature of the part that a dimension measures (`ties`)
    distance    a printed length between two landmarks (`spacing`); chain: `n x p`, running: from one nought
    general     deviations of sizes without their own, by a note such as ISO 2768-m
    front       the finished end, Z0 (`front` weighs `front_words` and the lengths of `ends`)
    evidence    votes for mm or inch and for the scale (`unit_evidence`, `units`, `sheet_scale`)
    held        compared with what is drawn; a contradiction is a stop

In the order of the work: `units`, `front`, `dimensions` (with `ties`, `tolerance`, `shown`, `spacing`, `said`,
`general`, `like`), `note_faults`, `note_checks`, `other_notes`, `callouts`, `corners`, `groove_table`
(with `table_lines`), `details` (with `same_shape`); then `unheard` (sizes that nothing took up), `words_beside` (words
in a size) and the doubts about the whole reading: `off_outline`, `doubt`; last `text_fates` (what became of each text).
What a size may be is decided in `extractor.limits`.
"""
