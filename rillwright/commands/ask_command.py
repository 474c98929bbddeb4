"""`rillwright ask`: what a drawing leaves open, one question after another, and an answers file for it."""

from pathlib import Path

from rillwright.answering import ask_all
from rillwright.settings import Settings


def run(drawing: Path, settings: Settings) -> int:
    """Ask; 0 if all is answered."""
    return 0 if ask_all(drawing, settings) else 1
