"""The tool itself: files, folders, clocks and processes round the rooms that only know values.

    job        one drawing made: program, job sheet and record written, or a refusal that says why
    outcome    what came of a drawing before anything is written: reading, plan, program, verdict
    records    the outcome as a value whose field names are the public JSON; it is all that a sheet is drawn from
    settings   what a run is told beside the drawing: how to read it, shop file, dialect, program number
    answers    files beside a drawing that say what a person would say by options
    svg        the one picture kit: elements, the mapping from part to picture, dimensions
    lying      what lies under a program's name already: ours, edited by somebody, or nothing

It hands out `cli.main`, the command line; a script that stays in Python calls `job.make_drawing`, which answers a
`records.record.Record`, and `check.compare_files`. `commands`, `folder`, `jobsheet` and
`records` are its inner rooms.
"""
