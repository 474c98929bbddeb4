"""Right programs of plain grooves as people type them, and the same with one thing wrong.

    style      a job, the way to cut each row of it, and the program of a hand: `hand_programs`
    writing    how one hand types: numbers, spaces, block numbers, remarks
    practised  the same programs with what people do round the grooves besides
    mutants    one character or one word wrong, and whether what is then cut otherwise is told

Habits are common practice, no source. Nothing here uses the tool's own writer.
"""
