"""Drawings worked out once and their results remembered, so that tests of what is done with files repeat only that."""

from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from rillwright import job
from rillwright.folder import task
from rillwright.jobsheet import sheet
from rillwright.records.jsonform import dump

MOMENT = datetime(2000, 1, 1, tzinfo=UTC)
"""When every drawing was made."""


@contextmanager
def remembered():
    """In the block a drawing of the same bytes, name and settings gives the same bytes again, and at once."""
    drafts, pages = {}, {}
    real_draft, real_page = job.draft, sheet.render_sheet

    def draft(drawing, outputs, settings, before, now=None):
        lies = replace(before, program=Path(before.program.name), former=None)
        key = (job.file_digest(drawing), drawing.name, outputs.program.name, settings.digest, lies)
        if key not in drafts:
            drafts[key] = real_draft(drawing, outputs, settings, before, now or MOMENT)
        return drafts[key]

    def page(record, program):
        key = dump([record, program])
        if key not in pages:
            pages[key] = real_page(record, program)
        return pages[key]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(job, "draft", draft)
        patch.setattr(task, "draft", draft)
        patch.setattr(sheet, "render_sheet", page)
        yield
