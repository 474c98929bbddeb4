"""What the moves leave of the metal, in whole increments.

    u, h       along a groove's bottom, and the height over it: outside, bore and face are one case (`extractor.side`)
    piece      a straight stretch of a profile: u and h at both ends, u rising
    metal      one side's profile as sorted pieces; a cut takes what stands above it, for good (`metal`)
    insert     the underside of the edge; all that is above it goes with it (`insert`)
    bench      the sides of one part under way, with the tools that cut them (`stock`)
    level cuts those of a program all of whose cuts are level, made at once (`level_cuts`, `whole_run`)
    corner     what the insert's radius leaves between plunges, cut again once at the end (`corners`)
    point      a tool that the shop file lacks, followed as a point (`turned`)

Sharp cuts are exact; only the split of a sloping piece is rounded, to the nearest count. What is unsafe is not asked.
"""
