"""Whole turning programs in other hands: turned, drilled, bored, grooved and threaded in one program.

Written from the trade's habits alone, with a lathe of their own as the oracle. Nothing here knows how the tool reads
a program: `lathe` follows one as a control would (common practice, no source), `bar` cuts it in a bar of samples,
`pieces` are the parts, `houses` the ways of writing them, `faults` what goes wrong in such programs.
"""
