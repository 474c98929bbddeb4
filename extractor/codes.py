"""The register of what may be found about a drawing: each code with its levels, its remedy and what answers it."""

from extractor.finding import CAUTION, NOTE, STOP, Code, Registered


class DrawingCode(Code):
    """What the reader of drawings finds."""

    # The file.
    FILE_REPAIRED = Registered(
        "file-repaired", CAUTION, "Compare every groove with the print, or export the drawing again."
    )
    NUMBERS_REPAIRED = Registered(
        "numbers-repaired", STOP, "Export the drawing again from the CAD system.", ("accept",)
    )
    ENTITIES_LOST = Registered("entities-lost", STOP, "Export the drawing again from the CAD system.", ("accept",))
    ENTITY_DAMAGED = Registered("entity-damaged", STOP, "Export the drawing again from the CAD system.", ("accept",))
    ANNOTATION_DAMAGED = Registered(
        "annotation-damaged", CAUTION, "Compare the sizes with the print, or export the drawing again."
    )
    TOO_MANY_ENTITIES = Registered(
        "too-many-entities", STOP, "Save the turned part alone in a file of its own, and give that."
    )
    TOO_DENSE = Registered("too-dense", STOP, "Save the view of the part alone in a file of its own, and give that.")
    THREE_D_ONLY = Registered("three-d-only", STOP, "Have the CAD system make a 2D view of the part.", ("accept",))
    LINE_TILTED = Registered(
        "line-tilted", CAUTION, "See that the part is drawn flat, and compare every groove with the print."
    )
    BODIES_LEFT_OUT = Registered(
        "bodies-left-out", CAUTION, "See that none of the bodies is the part; have a 2D view of it made if one is."
    )
    UNREADABLE_LEFT_OUT = Registered(
        "unreadable-left-out",
        CAUTION,
        "See that the part is none of what was left out; draw it as lines and arcs if it is.",
    )
    CURVES_FLATTENED = Registered(
        "curves-flattened", NOTE, "Nothing, unless the curves are to be read closer than the figure named."
    )
    PAPER_SPACE = Registered(
        "paper-space", CAUTION, "Draw the part in model space at 1:1, or compare every size with the print."
    )
    LAYOUT_DIMENSIONS = Registered(
        "layout-dimensions", CAUTION, "Compare the sizes and tolerances on that layout with what was read."
    )
    LAYER_HIDDEN = Registered(
        "layer-hidden", NOTE, "Thaw the layer, switch it on and let it plot, if the part is drawn on it."
    )
    ENTITY_INVISIBLE = Registered("entity-invisible", NOTE, "Make the entities visible, if they belong to the part.")
    BLOCK_MISSING = Registered(
        "block-missing", CAUTION, "Export the drawing again with all its blocks, if they belong to the part."
    )
    BLOCK_ELSEWHERE = Registered(
        "block-elsewhere", CAUTION, "Bind the other file into the drawing, if the part is drawn in it."
    )
    BLOCK_CYCLE = Registered(
        "block-cycle", CAUTION, "Take the block apart in the CAD system, if it belongs to the part."
    )

    # The view.
    NO_OUTLINE = Registered("no-outline", STOP, "Draw the outline as visible lines and arcs in model space.")
    NO_TURNED_PART = Registered("no-turned-part", STOP, "Draw the outline closed and its centre line with it.")
    NOT_TURNED = Registered(
        "not-turned",
        STOP,
        "Draw a centre line along the turning axis, or give the diameters their sign, if it is a turned part.",
        ("accept",),
    )
    TURNED_BY_SYMMETRY = Registered(
        "turned-by-symmetry", CAUTION, "See that it is a turned part, and draw its centre line."
    )
    AXIS_UNCLEAR = Registered(
        "axis-unclear",
        STOP | CAUTION,
        "Draw the turning axis as the only centre line of the view, or give --front, the end that is Z0.",
        ("front", "accept"),
    )
    AXIS_BY_SIZES = Registered(
        "axis-by-sizes", CAUTION, "See which line is the turning axis, and leave it as the view's only centre line."
    )
    SEVERAL_PARTS = Registered("several-parts", STOP, "Point to the view that is meant with --at X,Y.", ("at",))
    PASSED_OVER = Registered(
        "passed-over", CAUTION, "Point to the other view with --at X,Y, if that is the part.", ("at",)
    )
    DRAWN_AGAIN = Registered(
        "drawn-again",
        CAUTION,
        "See that both views show one part; point to the other with --at X,Y, if that is meant.",
        ("at",),
    )
    READ_TOGETHER = Registered(
        "read-together", NOTE, "Nothing, unless the other view shows another part; if it does, take it away."
    )
    VIEWS_DIFFER = Registered(
        "views-differ", STOP | CAUTION, "See which view is right, and point to it with --at X,Y.", ("at",)
    )
    DETAIL_DIFFERS = Registered(
        "detail-differs", STOP, "Ask which is meant, the view or its detail, and put the drawing right.", ("accept",)
    )
    LET_IN = Registered(
        "let-in",
        STOP | CAUTION,
        "See that the lines are outline, and put them on a layer of its own.",
        ("accept",),
    )
    VARIANTS = Registered(
        "variants",
        STOP,
        "Make one drawing for each part of the table, with its own sizes, or take the table away if it is not "
        "about parts.",
    )
    NOTHING_THERE = Registered("nothing-there", STOP, "Point with --at X,Y inside the view that is meant.", ("at",))
    FRONT_IMPOSSIBLE = Registered(
        "front-impossible", STOP, "Give the --front that the view has: right or left, top or bottom.", ("front",)
    )
    FRONT_BY_WORDS = Registered("front-by-words", NOTE, "Give --front, if the other end is the front.", ("front",))
    FRONT_ASSUMED = Registered("front-assumed", CAUTION, "See which end is Z0, and give --front.", ("front",))
    FRONT_OVERRIDDEN = Registered("front-overridden", CAUTION, "Check that the --front you gave is right.", ("front",))
    FRONT_CONFLICT = Registered("front-conflict", STOP, "Ask which end is Z0, and give --front.", ("front",))
    BROKEN_VIEW = Registered("broken-view", STOP, "Draw the part at its full length, without breaks.", ("accept",))
    NOT_ROUND = Registered(
        "not-round",
        STOP,
        "Give the part to another machine; if it is turned, say so by a diameter sign, or take away the figure or note "
        "that is not about it.",
    )
    ASSEMBLY = Registered("assembly", STOP, "Give the drawing of the one part that is to be cut.", ("accept",))
    OUTLINE_OPEN = Registered("outline-open", STOP, "Close the outline in the drawing at the place named.", ("accept",))
    OUTLINE_UNCLEAR = Registered(
        "outline-unclear",
        STOP,
        "Draw the outline again at the place named, and what only touches the part as phantom lines.",
        ("accept",),
    )
    OUTLINE_DOUBTFUL = Registered(
        "outline-doubtful",
        STOP | CAUTION,
        "Point with --at X,Y to a view that is offered, or leave the turning axis as the only centre line.",
        ("at", "accept"),
    )
    IN_PIECES = Registered("in-pieces", STOP, "Draw one part alone, its outline closed and at full length.")
    LINES_UNEXPLAINED = Registered(
        "lines-unexplained",
        STOP | CAUTION,
        "Take away the lines that do not belong to the part, or draw them as phantom lines.",
    )
    GAPS_CLOSED = Registered(
        "gaps-closed", NOTE | CAUTION, "See that the outline is meant to be closed there, and close it in the drawing."
    )
    LEFT_OUT = Registered("left-out", CAUTION, "See that the lines at the place named are not part of the outline.")

    # The recesses.
    PEN_SLIP = Registered(
        "pen-slip", CAUTION, "See that no groove is meant there; draw it at its full depth, if one is."
    )
    ONE_SIDED = Registered(
        "one-sided",
        CAUTION,
        "See that it is a notch, flat or keyway; draw it on both sides of the axis, if it is a groove.",
    )
    HALVES_UNLIKE = Registered(
        "halves-unlike", CAUTION, "Draw both halves alike, or compare the groove that was read with the print."
    )
    HALVES_DISAGREE = Registered(
        "halves-disagree", STOP, "Draw both halves alike, or give the size as that of a notch."
    )
    LANDS_DISAGREE = Registered(
        "lands-disagree", STOP, "Draw both halves alike, or accept it if a flat is cut after turning.", ("accept",)
    )
    HELIX = Registered("helix", CAUTION, "Draw the recesses alike on both sides of the axis, if they are grooves.")
    THREAD = Registered(
        "thread", CAUTION, "See that the teeth are a thread; program them by hand, if they are grooves."
    )
    CROSS_HOLE = Registered("cross-hole", CAUTION, "See that it is a hole; program it by hand, if it is a groove.")
    INNER_LINES = Registered(
        "inner-lines", CAUTION, "See whether it is a bore or a thread; hatch the section, if it is a bore."
    )
    MOUTH_LINE = Registered("mouth-line", CAUTION, "See that it is a groove; take the line away, if it is one.")
    GROOVE_OR_THREAD = Registered(
        "groove-or-thread",
        STOP,
        "Take away the line that closes it if it is a groove, or its floor line if it is a thread.",
        ("accept",),
    )
    KNURL = Registered("knurl", CAUTION | NOTE, "See that it is a knurl; program them by hand, if they are grooves.")
    JOURNAL = Registered(
        "journal", CAUTION, "Turn the low land first, or give --grooved to have it grooved.", ("grooved",)
    )
    OVERHANG = Registered(
        "overhang",
        STOP,
        "Cut the recess with another tool and accept the finding, or draw it open straight along the tool's way.",
        ("accept",),
        together=True,
    )
    NOT_RECTANGULAR = Registered("not-rectangular", CAUTION, "Look at the recess before it is cut.")
    INSIDE_GROOVE = Registered("inside-groove", CAUTION, "Look at the recess in the bore before it is cut.")
    FACE_UNCLEAR = Registered(
        "face-unclear",
        STOP | CAUTION,
        "Draw the part in section, or accept it if nothing is to be grooved in the face.",
        ("accept",),
    )
    FACE_GROOVE = Registered("face-groove", CAUTION, "Look at the recess in the face before it is cut.")

    # The figures.
    UNITS_UNKNOWN = Registered(
        "units-unknown", STOP, "Give --units mm or --units in; in a program, write its word for the units.", ("units",)
    )
    UNITS_CONFLICT = Registered("units-conflict", STOP, "Give --units mm or --units in.", ("units",))
    UNITS_WEIGHED = Registered("units-weighed", CAUTION | NOTE, "Give --units, if the other unit is meant.", ("units",))
    UNITS_OVERRIDDEN = Registered(
        "units-overridden",
        CAUTION,
        "Check that the --units you gave are right.",
        ("units",),
    )
    SHEET_SCALE = Registered(
        "sheet-scale",
        STOP | CAUTION | NOTE,
        "Give --scale R, R being how many times its true size the view is drawn.",
        ("scale", "accept"),
    )
    DISPLAY_FACTOR = Registered("display-factor", CAUTION, "Compare a printed size with the one that was read.")
    DIMENSION_CONTRADICTS = Registered(
        "dimension-contradicts", STOP | CAUTION, "Ask which size is meant, and put the drawing right.", ("accept",)
    )
    PLACES_CONTRADICT = Registered("places-contradict", STOP, "Ask which distance is meant, and put the drawing right.")
    DIMENSION_UNCLEAR = Registered(
        "dimension-unclear", CAUTION, "Read the tolerance yourself, and see which groove it belongs to."
    )
    TOLERANCE_UNREAD = Registered(
        "tolerance-unread", CAUTION, "Read the tolerance yourself, and check the groove against it."
    )
    LIKE_GROOVES = Registered(
        "like-grooves", NOTE, "Give the other grooves a dimension of their own, if they are meant otherwise."
    )
    CLASS_UNKNOWN = Registered(
        "class-unknown",
        STOP,
        "Print the deviations of the class beside it, or accept it and check the groove against its standard.",
        ("accept",),
    )
    CORNER_NOT_DRAWN = Registered(
        "corner-not-drawn", CAUTION, "Draw the corner radius, or check the corner against the print."
    )
    COUNT_DIFFERS = Registered(
        "count-differs", STOP | CAUTION, "Count the grooves on the print, and ask how many are meant.", ("accept",)
    )
    NOTE_CONTRADICTS = Registered(
        "note-contradicts", STOP, "Ask which size is meant, and put the drawing right.", ("accept",)
    )
    NOTE_WITHOUT_GROOVE = Registered(
        "note-without-groove", CAUTION, "See what the note is about; if it is a groove, draw it."
    )
    GROOVE_TABLE = Registered("groove-table", CAUTION, "Compare the grooves that were read with the table, row by row.")
    NOTE_UNREAD = Registered("note-unread", CAUTION, "Read the note, and see that the groove is as it says.")
    CHAIN_DIFFERS = Registered(
        "chain-differs",
        STOP,
        "Ask how many grooves are meant and how far apart, and put the drawing right.",
        ("accept",),
    )
    GROOVE_UNDRAWN = Registered(
        "groove-undrawn", CAUTION, "See that the groove is meant, and draw it, or take it away from the count."
    )
    OFF_OUTLINE = Registered(
        "off-outline",
        STOP,
        "See whether a line of the outline is missing there, and draw it or put the size right.",
        ("accept",),
    )
    OVERALL_DIFFERS = Registered(
        "overall-differs",
        STOP,
        "See whether a line of the outline is missing there, and draw it or put the size right.",
    )
    GENERAL_TOLERANCES = Registered(
        "general-tolerances", CAUTION | NOTE, "Nothing, unless the note is not meant for these sizes."
    )
