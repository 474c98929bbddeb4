"""Printed sizes held against what is drawn: tolerances and distances go in, contradictions come out.

    said        what the dimensions of a part say, gathered one by one (`said`); shown: the picture of one (`shown`)
    spacing     a printed distance between two landmarks (`spacing`)
    chain       `n x p`, or lengths printed one behind another: held against their sum (`chains`)
    running     a row of sizes from one nought (`running`)
    off         the outline read: a size from where no line is (`off_outline`)
    doubt       how many printed sizes the part read bears out (`doubt`; end views: `end_circles`; the bar: `stock`)

Hands out `said.SaidSoFar`, `off_outline.off_outline`, `doubt.doubt`, `doubt.borne_out`.
"""
