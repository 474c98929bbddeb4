"""Sentences on the sheet that no groove is named by: how they are put together and what matter they are about.

    sentence    lines of text that a hand broke, joined (`broken_lines`)
    may size    whether a figure among words that nobody here understands may be meant for a groove (`could_size`)
    general     deviations of sizes without their own, by a note such as ISO 2768-m (`general`)
    void        out of force, or asking for what may not be drawn (`void_words`)
    marked up   a word over a groove that it is to go, or that nobody has settled it (`marked_up`)
    elsewhere   half a part, both ends by one, grooves on another sheet (`not_on_sheet`)
    harmless    asking for nothing that is not drawn (`harmless`); material: what the part is made of (`material_notes`)

Hands out `broken_lines.broken_notes`, `general.general_classes`, `void_words.out_of_force`.
"""
