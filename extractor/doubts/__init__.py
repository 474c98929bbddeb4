"""Ink that speaks against a reading: what is drawn at the view or beside it and no reading of the view explains.

    ledger      all ink, sorted by what explains it (`ledger`)
    left over   lines at the part, in its recesses or in its metal, that nothing explains (`left_over`, `hidden_ends`)
    beside      what stands in line with the view and was not read (`beside_view`)
    comb        or a plate with slots, whose picture is that of a turned part (`combs`)
    slip        halves or centre line a hair off the axis, or half a part of which an end is one (`off_axis`)
    crossed     out by a hand: lines over a groove or a stroke through figures (`crossed_out`)
    label       a number or letter that points into a view: of a groove, or of parts put together (`labelled`)

Each file makes findings of its own; `extractor.placing` and `extractor.whole` ask them.
"""
