"""Which grooves go together: like grooves, even rows, the fewest of them.

    alike      of one side, shape, width, floor, mouth, lands, corner and chamfer, or with limits that one cut meets
    set        like grooves at one pitch, as the drawing shows them: no shop, no tool, no grid of the control (`sets`)
    window     the least and the greatest count at which a groove's place is within its tolerance
    shift      from one groove of a row to the next in whole counts, as the cycle takes it
    row        grooves for which a start and a shift exist that stay in every window (`even`)
    partition  the fewest rows that take each groove once: exact (`partition`), or good and fast for many (`long_rows`)

`sets.group_grooves` serves the reading, `partition.fewest_rows` the plan. Counts run along the groove's own axis.
"""
