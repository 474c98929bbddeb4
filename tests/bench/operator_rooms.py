"""The rooms of `operator_changes.py`: their modules and tables, and the tests that judge them."""

from collections.abc import Iterable
from pathlib import Path

ROOMS = {
    "judging": (
        "postproc/judging/*.py postproc/cutting/*.py",
        "tests/postproc/test_[4-9]*.py tests/postproc/test_28*.py tests/postproc/test_38_unsaid_places.py "
        "tests/rillwright/test_31_compare_picture.py",
    ),
    "limits": (
        "extractor/limits.py extractor/distance.py extractor/places.py extractor/side.py "
        "extractor/sizing/sizes/spacing.py",
        "tests/extractor/test_57_*.py tests/extractor/test_61_far*.py tests/extractor/test_6[0-9]_places.py "
        "tests/extractor/test_69_edges.py tests/extractor/test_60_tol*.py tests/planner/test_15_values.py "
        "tests/test_89_printed_limits.py",
    ),
    "interpreter": (
        "postproc/reading/*.py postproc/reading/actions/*.py postproc/dialect.py",
        "tests/postproc/*.py",
    ),
    "placing": (
        "extractor/placing/placing.py extractor/placing/laying.py extractor/placing/together.py",
        "tests/extractor/test_46_views*.py tests/extractor/test_49*.py tests/extractor/test_56_front.py "
        "tests/extractor/test_36*.py tests/extractor/test_45*.py tests/extractor/test_54*.py "
        "tests/extractor/test_40*.py tests/extractor/test_48_ledger.py tests/extractor/test_47_letters*.py",
    ),
    "planning": (
        "planner/planning.py",
        "tests/planner/*.py tests/test_89_printed_limits.py tests/extractor/test_57_distances.py",
    ),
    "folder": (
        "rillwright/folder/placing.py rillwright/atomic.py rillwright/job.py",
        "tests/rillwright/test_10*.py tests/rillwright/test_63*.py tests/rillwright/test_2[0-4]*.py "
        "tests/rillwright/test_66_watch_faults_by*.py",
    ),
    "settings": (
        "planner/settings/contradictions.py planner/settings/*.toml rillwright/outcome.py",
        "tests/planner/test_1[0-2]*.py tests/planner/test_50*.py tests/planner/test_91*.py "
        "tests/rillwright/test_19*.py tests/rillwright/test_2[0-3]*.py tests/postproc/test_03*.py "
        "tests/postproc/test_1[0-4]*.py tests/postproc/test_3[68]*.py",
    ),
}
"""Modules and tests of each room."""


def found(patterns: Iterable[str]) -> list[str]:
    """The files that patterns find."""
    return sorted(str(path) for one in patterns for path in Path().glob(one))


def module_of(name: str) -> str:
    """The module that a file holds."""
    return name.removesuffix(".py").replace("/", ".").removesuffix(".__init__")
