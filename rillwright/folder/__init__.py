"""The watched folder: a program for every drawing dropped into an inbox, and a ledger of what became of each.

    inbox      the folder that is watched; what lies there is scanned, and taken once it has settled (stopped changing)
    cause      what calls for a run when it changes: hashes of drawing and settings, the tool's version
    result     what became of a drawing once; its revision counts the different programs made of it
    draft      results as bytes, made by a worker in a process of its own, not yet in place
    standing   programs that lie in the folder of results for a drawing that is still there
    orphaned   a program that is kept though its drawing is gone

It hands out `start.start`, the watch; `ledger.Ledger`; and `history`, the ledger for the eye. `watch` has the theory.
"""
