"""What the tool makes as the JSON that scripts read, and such JSON as the values that the tool reads."""

import json

from rillwright import job
from rillwright.records.jsonform import dump, from_json
from rillwright.records.record import Record
from rillwright.records.record_part import RecordedFinding


def form(value):
    """The JSON of a value of the record."""
    return json.loads(dump(value))


def typed(document, kind=Record):
    """The value that a document holds."""
    return from_json(kind, json.loads(json.dumps(document)))


def findings(documents):
    """Findings as values."""
    return typed(documents, tuple[RecordedFinding, ...])


def make_drawing(*args, **more):
    """The record of `rillwright.job.make_drawing` as JSON."""
    return form(job.make_drawing(*args, **more))


def draft(*args, **more):
    """The record of `rillwright.job.draft` as JSON, and the program's text."""
    record, program = job.draft(*args, **more)
    return form(record), program
