"""The register of what may be found about a drawing: each code with its levels, its remedy and what answers it."""

from extractor.finding import CAUTION, NOTE, STOP, Code, entry


class DrawingCode(Code):
    """What the reader of drawings finds."""

    # The file.
    FILE_REPAIRED = entry(CAUTION, "Compare every groove with the print, or export the drawing again.")
    NUMBERS_REPAIRED = entry(STOP, "Export the drawing again from the CAD system.", ("accept",))
    ENTITIES_LOST = entry(STOP, "Export the drawing again from the CAD system.", ("accept",))
    ENTITY_DAMAGED = entry(STOP, "Export the drawing again from the CAD system.", ("accept",))
    ANNOTATION_DAMAGED = entry(CAUTION, "Compare the sizes with the print, or export the drawing again.")
    TOO_MANY_ENTITIES = entry(STOP, "Save the turned part alone in a file of its own, and give that.")
    TOO_DENSE = entry(STOP, "Save the view of the part alone in a file of its own, and give that.")
    THREE_D_ONLY = entry(STOP, "Have the CAD system make a 2D view of the part.", ("accept",))
    LINE_TILTED = entry(CAUTION, "See that the part is drawn flat, and compare every groove with the print.")
    BODIES_LEFT_OUT = entry(CAUTION, "See that none of the bodies is the part; have a 2D view of it made if one is.")
    UNREADABLE_LEFT_OUT = entry(
        CAUTION, "See that the part is none of what was left out; draw it as lines and arcs if it is."
    )
    CURVES_FLATTENED = entry(NOTE, "Nothing, unless the curves are to be read closer than the figure named.")
    PAPER_SPACE = entry(CAUTION, "Draw the part in model space at 1:1, or compare every size with the print.")
    LAYOUT_DIMENSIONS = entry(CAUTION, "Compare the sizes and tolerances on that layout with what was read.")
    LAYER_HIDDEN = entry(NOTE, "Thaw the layer, switch it on and let it plot, if the part is drawn on it.")
    ENTITY_INVISIBLE = entry(NOTE, "Make the entities visible, if they belong to the part.")
    BLOCK_MISSING = entry(CAUTION, "Export the drawing again with all its blocks, if they belong to the part.")
    BLOCK_ELSEWHERE = entry(CAUTION, "Bind the other file into the drawing, if the part is drawn in it.")
    BLOCK_CYCLE = entry(CAUTION, "Take the block apart in the CAD system, if it belongs to the part.")

    # The view.
    NO_OUTLINE = entry(STOP, "Draw the outline as visible lines and arcs in model space.")
    NO_TURNED_PART = entry(STOP, "Draw the outline closed and its centre line with it.")
    NOT_TURNED = entry(
        STOP,
        "Draw a centre line along the turning axis, or give the diameters their sign, if it is a turned part.",
        ("accept",),
    )
    AXIS_NOT_DRAWN = entry(
        STOP,
        "Draw the centre line of the part; accept it if the drawing is half of a part that is turned about that line.",
        ("accept",),
    )
    TURNED_BY_SYMMETRY = entry(CAUTION, "See that it is a turned part, and draw its centre line.")
    AXIS_UNCLEAR = entry(
        STOP | CAUTION,
        "Draw the turning axis as the only centre line of the view, or give --front, the end that is Z0.",
        ("front", "accept"),
    )
    AXIS_BY_SIZES = entry(CAUTION, "See which line is the turning axis, and leave it as the view's only centre line.")
    SEVERAL_PARTS = entry(STOP, "Point to the view that is meant with --at X,Y.", ("at",))
    PASSED_OVER = entry(CAUTION, "Point to the other view with --at X,Y, if that is the part.", ("at",))
    DRAWN_AGAIN = entry(
        CAUTION, "See that both views show one part; point to the other with --at X,Y, if that is meant.", ("at",)
    )
    READ_TOGETHER = entry(NOTE, "Nothing, unless the other view shows another part; if it does, take it away.")
    VIEWS_DIFFER = entry(STOP | CAUTION, "See which view is right, and point to it with --at X,Y.", ("at",))
    DETAIL_DIFFERS = entry(
        STOP | CAUTION, "Ask which is meant, the view or its detail, and put the drawing right.", ("accept",)
    )
    LET_IN = entry(STOP | CAUTION, "See that the lines are outline, and put them on a layer of its own.", ("accept",))
    VARIANTS = entry(
        STOP,
        "Make one drawing for each part of the table, with its own sizes, or take the table away if it is not "
        "about parts.",
    )
    NOTHING_THERE = entry(STOP, "Point with --at X,Y inside the view that is meant.", ("at",))
    FRONT_IMPOSSIBLE = entry(STOP, "Give the --front that the view has: right or left, top or bottom.", ("front",))
    FRONT_BY_WORDS = entry(NOTE, "Give --front, if the other end is the front.", ("front",))
    FRONT_ASSUMED = entry(CAUTION, "See which end is Z0, and give --front.", ("front",))
    FRONT_OVERRIDDEN = entry(CAUTION, "Check that the --front you gave is right.", ("front",))
    FRONT_CONFLICT = entry(STOP, "Ask which end is Z0, and give --front.", ("front",))
    BROKEN_VIEW = entry(STOP, "Draw the part at its full length, without breaks.", ("accept",))
    NOT_ROUND = entry(
        STOP,
        "Give the part to another machine; if it is turned, say so by a diameter sign, or take away the figure or note "
        "that is not about it.",
    )
    ASSEMBLY = entry(STOP, "Give the drawing of the one part that is to be cut.", ("accept",))
    OUTLINE_OPEN = entry(STOP, "Close the outline in the drawing at the place named.", ("accept",))
    OUTLINE_UNCLEAR = entry(
        STOP, "Draw the outline again at the place named, and what only touches the part as phantom lines.", ("accept",)
    )
    OUTLINE_DOUBTFUL = entry(
        STOP | CAUTION,
        "Point with --at X,Y to a view that is offered, or leave the turning axis as the only centre line.",
        ("at", "accept"),
    )
    IN_PIECES = entry(STOP, "Draw one part alone, its outline closed and at full length.")
    LINES_UNEXPLAINED = entry(
        STOP | CAUTION, "Take away the lines that do not belong to the part, or draw them as phantom lines."
    )
    GAPS_CLOSED = entry(
        NOTE | CAUTION, "See that the outline is meant to be closed there, and close it in the drawing."
    )
    OFF_SQUARE = entry(
        CAUTION, "Draw the lines of the view level and upright, or hold what was read against the sizes."
    )
    LEFT_OUT = entry(CAUTION, "See that the lines at the place named are not part of the outline.")

    DRAWN_TWICE = entry(CAUTION, "Take away the second of the lines that lie a hair beside one another.")

    # The recesses.
    PEN_SLIP = entry(CAUTION, "See that no groove is meant there; draw it at its full depth, if one is.")
    ONE_SIDED = entry(
        CAUTION, "See that it is a notch, flat or keyway; draw it on both sides of the axis, if it is a groove."
    )
    MILLED_FLATS = entry(
        STOP | CAUTION,
        "Draw the edges of the recess or give --grooved, if it is a groove; accept it as flats, which are left out.",
        ("grooved", "accept"),
    )
    HALVES_UNLIKE = entry(CAUTION, "Draw both halves alike, or compare the groove that was read with the print.")
    HALVES_DISAGREE = entry(STOP, "Draw both halves alike, or give the size as that of a notch.")
    LANDS_DISAGREE = entry(STOP, "Draw both halves alike, or accept it if a flat is cut after turning.", ("accept",))
    HELIX = entry(CAUTION, "Draw the recesses alike on both sides of the axis, if they are grooves.")
    THREAD = entry(
        STOP | CAUTION,
        "See that the teeth are a thread, which another tool cuts; program them by hand, if they are grooves.",
        ("accept",),
    )
    CROSS_HOLE = entry(CAUTION, "See that it is a hole; program it by hand, if it is a groove.")
    INNER_LINES = entry(CAUTION, "See whether it is a bore or a thread; hatch the section, if it is a bore.")
    MOUTH_LINE = entry(CAUTION, "See that it is a groove; take the line away, if it is one.")
    GROOVE_OR_THREAD = entry(
        STOP, "Take away the line that closes it if it is a groove, or its floor line if it is a thread.", ("accept",)
    )
    KNURL = entry(CAUTION | NOTE, "See that it is a knurl; program them by hand, if they are grooves.")
    JOURNAL = entry(CAUTION, "Turn the low land first, or give --grooved to have it grooved.", ("grooved",))
    OVERHANG = entry(
        STOP,
        "Cut the recess with another tool and accept the finding, or draw it open straight along the tool's way.",
        ("accept",),
        together=True,
    )
    NOT_RECTANGULAR = entry(CAUTION, "Look at the recess before it is cut.")
    INSIDE_GROOVE = entry(CAUTION, "Look at the recess in the bore before it is cut.")
    FACE_UNCLEAR = entry(
        STOP | CAUTION, "Draw the part in section, or accept it if nothing is to be grooved in the face.", ("accept",)
    )
    FACE_GROOVE = entry(CAUTION, "Look at the recess in the face before it is cut.")

    # The notes.
    OUT_OF_FORCE = entry(
        STOP | CAUTION,
        "Get the drawing that is in force, or accept it if the words are about something else.",
        ("accept",),
    )

    # The figures.
    UNITS_UNKNOWN = entry(
        STOP, "Give --units mm or --units in; in a program, write its word for the units.", ("units",)
    )
    UNITS_CONFLICT = entry(STOP, "Give --units mm or --units in.", ("units",))
    UNITS_WEIGHED = entry(CAUTION | NOTE, "Give --units, if the other unit is meant.", ("units",))
    UNITS_OVERRIDDEN = entry(CAUTION, "Check that the --units you gave are right.", ("units",))
    SHEET_SCALE = entry(
        STOP | CAUTION | NOTE,
        "Give --scale R, R being how many times its true size the view is drawn.",
        ("scale", "accept"),
    )
    DISPLAY_FACTOR = entry(CAUTION, "Compare a printed size with the one that was read.")
    DIMENSION_CONTRADICTS = entry(STOP | CAUTION, "Ask which size is meant, and put the drawing right.", ("accept",))
    PLACES_CONTRADICT = entry(STOP, "Ask which distance is meant, and put the drawing right.")
    DIMENSION_UNCLEAR = entry(CAUTION, "Read the tolerance yourself, and see which groove it belongs to.")
    TOLERANCE_UNREAD = entry(CAUTION, "Read the tolerance yourself, and check the groove against it.")
    LIKE_GROOVES = entry(NOTE, "Give the other grooves a dimension of their own, if they are meant otherwise.")
    CLASS_UNKNOWN = entry(
        STOP,
        "Print the deviations of the class beside it, or accept it and check the groove against its standard.",
        ("accept",),
    )
    CORNER_NOT_DRAWN = entry(CAUTION, "Draw the corner radius, or check the corner against the print.")
    COUNT_DIFFERS = entry(STOP | CAUTION, "Count the grooves on the print, and ask how many are meant.", ("accept",))
    NOTE_CONTRADICTS = entry(STOP, "Ask which size is meant, and put the drawing right.", ("accept",))
    NOTE_WITHOUT_GROOVE = entry(CAUTION, "See what the note is about; if it is a groove, draw it.")
    GROOVE_TABLE = entry(CAUTION, "Compare the grooves that were read with the table, row by row.")
    NOTE_UNREAD = entry(CAUTION | NOTE, "Read the note, and see that the groove is as it says.")
    CHAIN_DIFFERS = entry(
        STOP,
        "Ask which of the printed figures are meant, how many and how far apart, and put the drawing right.",
        ("accept",),
    )
    GROOVE_UNDRAWN = entry(CAUTION, "See that the groove is meant, and draw it, or take it away from the count.")
    OFF_OUTLINE = entry(
        STOP, "See whether a line of the outline is missing there, and draw it or put the size right.", ("accept",)
    )
    OVERALL_DIFFERS = entry(
        STOP | CAUTION, "See whether a line of the outline is missing there, and draw it or put the size right."
    )
    GENERAL_TOLERANCES = entry(CAUTION | NOTE, "Nothing, unless the note is not meant for these sizes.")
