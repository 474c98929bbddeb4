"""Drawing -> part: reads a DXF and recognises a turned part and its grooves.

Hands out `read_drawing`, the values it returns, and `write_overlay`. Words used in this room:

    sheet          everything in the DXF that matters: segments, circles, dimensions, texts
    stroke         a segment that may be outline; strokes are noded into a network of nodes and edges
    cluster        what hangs together on the sheet: a view, half a section, a border, a letter
    turning axis   the line about which the part turns; a view is symmetric about it
    view           the clusters that show one part about one axis, with both halves or one
    outline        the closed rim of a view; half of it about the axis is the profile
    profile        lines and arcs in (z, radius), z falling from the front face toward the chuck
    front face     the finished end, z 0
    journal        a low land between higher ones that is turned, not grooved
    land           a level stretch of the outside; floor: a level stretch at the bottom of a recess
    recess         anything below the lands on both sides: groove, vee, relief, neck, thread
    wall, mouth    a recess's side, and its opening at the height of the lower land
    corner radius  the arc between floor and wall; chamfer, rim: what breaks the edge at the mouth
"""

from extractor.errors import DrawingError, InternalFault, ProgramError, RillwrightError, SettingsError
from extractor.finding import Finding, Level, accept, stopped
from extractor.front import FrontEnd
from extractor.overlay import write_overlay
from extractor.part import Frame, Groove, Part, Reading, ReadOptions
from extractor.reading import read_drawing, read_sheet

__all__ = [
    "DrawingError",
    "Finding",
    "Frame",
    "FrontEnd",
    "Groove",
    "InternalFault",
    "Level",
    "Part",
    "ProgramError",
    "ReadOptions",
    "Reading",
    "RillwrightError",
    "SettingsError",
    "accept",
    "read_drawing",
    "read_sheet",
    "stopped",
    "write_overlay",
]
