"""What a text of the sheet says for itself, whatever part it is about.

    plain       letters without accents, in capitals: what patterns of words are held against (`sheet_words`)
    printed     a text taken apart by the `grammar`: size, sign, count, deviations, tolerance class (`printed`)
    letter      that stands for a size, which a table or a legend gives (`letters`)
    note        a sentence at a groove (`groove_notes`, by the words of `note_words` and the figures of `note_figures`)
    item        a note of a list, without its number (`lists`)
    pointer     a text with the tip of its leader (`pointers`)

Hands out `printed.parse`, `groove_notes.groove_note`, `pointers.said`. Nothing here has seen an outline.
"""
