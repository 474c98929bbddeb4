"""Loaded once by the process that workers are forked from, so that none of them has to load or compile anything."""

from rillwright.folder import task
from rillwright.jobsheet.sheet import environment

TASK = task
TEMPLATES = [environment().get_template(name) for name in environment().list_templates(extensions=["html"])]
