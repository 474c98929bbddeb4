"""Words that reader and writer share: what they ask for, their numbers, the grooving cycle as moves.

    act        what a G word asks for; switch: what an M word does, whatever their numbers are (`acts`)
    count      a length in least increments (`numbers`); figure: how such a number is written (`figures`)
    pattern    a line of text that says how a block is written and what its words mean; gap: a field in it (`pattern`)
    form       what the patterns tell of cycle, tool, arc, dwell and program (`forms`)
    cycle      peck, back off, shift and return, as moves (`cycle`)
    tongue     one of the two common systems of G numbers (`tongues`)

Nothing here knows a dialect by name, the state of a control, or the metal.
"""
