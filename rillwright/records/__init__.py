"""The record of a drawing: what scripts read and what sheets are drawn from.

    record       the whole of it as a value whose field names are the public JSON; `record_part` what was recognised
    recording    makes it of an outcome; `record_extra` what the sheet's pictures need besides
    jsonform     any such value as JSON and back, by the fields of its class, checked on the way in
    record_file  the one door by which records come in from files

It hands out `recording.record_of`, `jsonform.dump` and `record_file.read_record`.
"""
