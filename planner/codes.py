"""The register of what may be found while a part is planned: each code with its levels and its remedy."""

from extractor.finding import CAUTION, NOTE, STOP, Code, Registered


class PlanCode(Code):
    """What the planner finds; codes of the drawing stand in extractor/codes.py."""

    # No plan.
    NO_GROOVES = Registered(
        "no-grooves",
        STOP,
        "If there should be a groove, see whether its lines lie on a layer that is frozen or does not plot.",
    )
    GROOVE_TOO_SMALL = Registered(
        "groove-too-small", STOP, "Give a smaller tolerance in the shop file, or put the drawing right."
    )
    LIMITS_TOO_FINE = Registered(
        "limits-too-fine",
        STOP,
        "Ask for limits that a step of the control lies between, or program the groove by hand.",
    )
    GROOVE_TOO_DEEP = Registered("groove-too-deep", STOP, "Put an insert of the reach named into the shop file.")
    GROOVE_TOO_NARROW = Registered("groove-too-narrow", STOP, "Put an insert of the width named into the shop file.")
    CORNER_TOO_SHARP = Registered(
        "corner-too-sharp", STOP, "Put an insert with a smaller corner radius into the shop file."
    )
    BORE_TOO_SMALL = Registered(
        "bore-too-small", STOP, "Put a tool with a smaller bar into the shop file, and its min_bore with it."
    )
    FACE_CURVE = Registered(
        "face-curve", STOP, "Put a face insert for that diameter into the shop file, with its face_min and face_max."
    )
    NO_TOOL = Registered(
        "no-tool",
        STOP,
        "Put a tool for such grooves into the shop file; in a program, call a tool before the first cut.",
    )
    RECESS_NOT_PLANNED = Registered(
        "recess-not-planned",
        STOP,
        "Program the recess by hand, or put an insert that makes it into the shop file.",
        ("accept",),
        together=True,
    )
    CORNER_SMALLER = Registered(
        "corner-smaller",
        STOP | CAUTION,
        "Put an insert with a corner radius nearer to the drawn one into the shop file, or ask whether it will do.",
        ("accept",),
        together=True,
    )
    JAWS = Registered("jaws", STOP, "Clamp the part farther out, and put the new stick_out into the shop file.")
    TAILSTOCK = Registered(
        "tailstock",
        STOP | CAUTION,
        "Cut the groove without the centre, and see that tool and turret clear it on their way.",
    )
    TURRET = Registered(
        "turret", STOP, "Take a tool that stands farther out of the turret, and put its overhang into the shop file."
    )
    MATERIAL_UNKNOWN = Registered(
        "material-unknown",
        STOP,
        "Give cutting_speed and specific_cutting_force of the material in the shop file, or --set material.name=NAME "
        "with a name that is known.",
    )
    POWER = Registered("power", STOP | CAUTION, "Lower the feed or the cutting speed in the shop file.")

    # What to look at.
    MATERIAL_ASSUMED = Registered(
        "material-assumed", CAUTION, "Give the material in the shop file, or by --set material.name=NAME."
    )
    MATERIALS_DIFFER = Registered(
        "materials-differ",
        CAUTION,
        "See which material is in the machine, and give that one in the shop file or by --set material.name=NAME.",
    )
    BUILT_IN_TOOLS = Registered(
        "built-in-tools",
        CAUTION,
        "Give your own inserts in a shop file, or set up exactly what the head of the program says.",
    )
    STICK_OUT_UNKNOWN = Registered(
        "stick-out-unknown", CAUTION, "Measure the stick-out, and give stick_out in the shop file."
    )
    STICK_OUT = Registered("stick-out", CAUTION, "Support the part with a centre or a steady, or clamp it shorter.")
    GRIP_SHORT = Registered(
        "grip-short", CAUTION, "Clamp the part deeper, or support it with a centre; see the manual of the chuck."
    )
    BENDS = Registered("bends", CAUTION, "Support the part with a centre or a steady, or lower the feed.")
    BLADE_BENDS = Registered(
        "blade-bends",
        CAUTION,
        "Take a wider insert or one that stands out less, or lower the feed; give blade_height in the shop file.",
    )
    SPEED_HIGH = Registered("speed-high", CAUTION, "Put cutting_speed right in the shop file.")
    ORDER = Registered("order", CAUTION, "See whether the thin land bends, and lower the feed if it does.")
    THIN_LAND = Registered(
        "thin-land", CAUTION, "Measure the land after the second groove is cut, and lower the feed if it bends."
    )
    THIN_NECK = Registered("thin-neck", CAUTION, "Lower the feed near the floor, and support the part.")
    DEEP_AND_NARROW = Registered(
        "deep-and-narrow", CAUTION, "Watch the chips; take a wider insert, if the groove has room for one."
    )
    FEED_HIGH = Registered(
        "feed-high", CAUTION, "Lower the feed of the tool in the shop file, if the data sheet of the insert says less."
    )
    CHAMFER_NOT_CUT = Registered(
        "chamfer-not-cut", CAUTION, "Cut the chamfer with another tool, or break the edge by hand."
    )
    RADIUS_NOT_CUT = Registered(
        "radius-not-cut", CAUTION, "Round the edge with another tool, or break it by hand if that will do."
    )
    HOLDER_NEAR_SHOULDER = Registered(
        "holder-near-shoulder",
        CAUTION,
        "See that the holder clears the shoulder, or give holder_near and holder_far in the shop file.",
    )
    BORE_UNCHECKED = Registered(
        "bore-unchecked", CAUTION, "See that the bar goes into the bore, and give its min_bore in the shop file."
    )
    BAR_OVERHANG = Registered(
        "bar-overhang", CAUTION, "Take a bar that stands out less or is thicker, or lower the feed."
    )
    CHIP_ROOM = Registered("chip-room", CAUTION, "Watch the chips, and take a thinner bar if they jam.")
    FACE_CURVE_UNCHECKED = Registered(
        "face-curve-unchecked",
        CAUTION,
        "See that the insert clears the outer wall, and give its face_min and face_max in the shop file.",
    )
    PECK_WITHOUT_RETRACT = Registered(
        "peck-without-retract", CAUTION, "Give the insert a retract in the shop file, or peck = 0 if it needs none."
    )

    # What is worth knowing.
    STARTING_VALUES = Registered(
        "starting-values",
        NOTE,
        "Take speed and force from the data sheet of the insert, and give the material in the shop file.",
    )
    CORNER_SHARP_AS_DRAWN = Registered(
        "corner-sharp-as-drawn", NOTE, "Nothing, unless the drawing asks for sharper corners than the insert leaves."
    )
    THIN_CUT = Registered("thin-cut", NOTE, "Measure the first groove.")
    WIDTH_NEAR_LIMIT = Registered("width-near-limit", NOTE, "Measure the first groove.")
    CYCLE_RETRACT_UNKNOWN = Registered(
        "cycle-retract-unknown", NOTE, "Give cycle_retract in the shop file, if the time matters."
    )
    TOOL_SAVES = Registered(
        "tool-saves", NOTE, "Give --prefer time, or a batch in the shop file, if the tool is worth setting up."
    )
    INSERT_SAVES = Registered(
        "insert-saves", NOTE, "Put such an insert into the shop file, if the time is worth its price."
    )
    BATCH_HOURS = Registered("batch-hours", NOTE, "Nothing: it says how long the batch takes.")
