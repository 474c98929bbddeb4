"""What nothing took up so far: the last looks at texts and tolerances.

    own notes   tolerances in notes, given to the grooves that the notes speak of (`note_limits`)
    lost        a tolerance that is printed and was given to nothing (`lost_limits`)
    unheard     a bare size beside the part that measures nothing drawn (`unheard`)
    of several  a size that speaks of all like grooves, held for each (`of_several`)
    in step     what spaces a row of grooves, held for each step (`in_step`)
    beside      words in a size that nobody read (`words_beside`)
    no scale    sizes that only the lines tell of a sheet that says it has none (`no_scale`)
    fate        what became of each text (`text_fates`), also by where it stands (`text_places`)

Hands out `text_fates.text_ledger`, `unheard.unheard`, `note_limits.own_notes`, `lost_limits.lost_limits`.
"""
