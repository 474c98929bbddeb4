"""The register of what the tool itself finds, and the whole register: every code of every room by its string."""

from collections.abc import Mapping

from extractor.codes import DrawingCode
from extractor.finding import CAUTION, NOTE, STOP, Code, entry
from planner.codes import PlanCode
from postproc.codes import ProgramCode


class JobCode(Code):
    """What the tool itself finds about a job."""

    DRAWING_UNREADABLE = entry(STOP, "Save the drawing again as a DXF from the CAD system.")
    NOTHING_TO_CUT = entry(STOP, "Give a drawing with a groove that this tool programs.")
    DIALECT_CANNOT_SAY = entry(STOP, "Give another dialect that your control reads with --dialect NAME.")
    VERIFICATION_FAILED = entry(
        STOP, "Keep the drawing and this record for whoever looks after the tool; program the part by hand."
    )
    INTERNAL_FAULT = entry(
        STOP, "Keep the drawing and this record for whoever looks after the tool; program the part by hand."
    )
    OUT_OF_MEMORY = entry(STOP, "Save the turned part alone in a file of its own, and give that.")
    UNREADABLE = entry(STOP, "Put right what the sentence names, and compare again.")
    GROOVE_LEFT_OUT = entry(CAUTION, "Cut the groove that was left out in another way.")
    OTHER_END_MATCHES = entry(CAUTION, "Give the --front named, if Z0 is at that end.", ("front",))
    PROGRAM_SET_ASIDE = entry(CAUTION, "See whether the program under the other name is still needed.")
    PROGRAM_EDITED = entry(
        CAUTION, "Take the edited program away and make the drawing again, to get it back as it was."
    )
    OTHER_DRAWING = entry(STOP, "Give each drawing a folder of its own with --out.")
    DRAWING_CHANGED = entry(NOTE, "Compare the new program with the last one, groove by groove.")
    ANSWERS_FAULT = entry(STOP, "Put the answers file right, or take it away and answer again.")
    ANSWERS_OUTDATED = entry(
        CAUTION, "Answer again for the drawing as it is now, with the command ask or on its sheet."
    )
    ANSWERS_NEWEST = entry(NOTE, "Take away the answers files that no longer count.")
    CANNOT_OPEN = entry(STOP, "See that the file may be read.")
    NUMBER = entry(STOP, "Give the drawing a name with a number of its own, or another rule by machine.numbers.")
    SHOP_FILE = entry(STOP, "Put the shop file right.")
    WORKER_TIMEOUT = entry(STOP, "Save the turned part alone in a file of its own, and give that.")
    WORKER_MEMORY = entry(STOP, "Save the turned part alone in a file of its own, and give that.")
    WORKER_DIED = entry(
        STOP, "Keep the drawing and this record for whoever looks after the tool; program the part by hand."
    )


REGISTER: Mapping[str, Code] = {
    str(code): code for room in (DrawingCode, PlanCode, ProgramCode, JobCode) for code in room
}
"""Every finding that the tool can make, by its code."""
