"""The register of what may be found while a part is planned: each code with its levels and its remedy."""

from extractor.finding import CAUTION, NOTE, STOP, Code, entry


class PlanCode(Code):
    """What the planner finds; codes of the drawing stand in extractor/codes.py."""

    # No plan.
    NO_GROOVES = entry(
        STOP, "If there should be a groove, see whether its lines lie on a layer that is frozen or does not plot."
    )
    GROOVE_TOO_SMALL = entry(STOP, "Give a smaller tolerance in the shop file, or put the drawing right.")
    LIMITS_TOO_FINE = entry(
        STOP, "Ask for limits that a step of the control lies between, or program the groove by hand."
    )
    GROOVE_TOO_DEEP = entry(STOP, "Put an insert of the reach named into the shop file.")
    GROOVE_TOO_NARROW = entry(STOP, "Put an insert of the width named into the shop file.")
    CORNER_TOO_SHARP = entry(STOP, "Put an insert with a smaller corner radius into the shop file.")
    BORE_TOO_SMALL = entry(STOP, "Put a tool with a smaller bar into the shop file, and its min_bore with it.")
    FACE_CURVE = entry(STOP, "Put a face insert for that diameter into the shop file, with its face_min and face_max.")
    NO_TOOL = entry(
        STOP, "Put a tool for such grooves into the shop file; in a program, call a tool before the first cut."
    )
    RECESS_NOT_PLANNED = entry(
        STOP,
        "Program the recess by hand, or put an insert that makes it into the shop file.",
        ("accept",),
        together=True,
    )
    CORNER_SMALLER = entry(
        STOP | CAUTION,
        "Put an insert with a corner radius nearer to the drawn one into the shop file, or ask whether it will do.",
        ("accept",),
        together=True,
    )
    JAWS = entry(STOP, "Clamp the part farther out, and put the new stick_out into the shop file.")
    TAILSTOCK = entry(
        STOP | CAUTION, "Cut the groove without the centre, and see that tool and turret clear it on their way."
    )
    TURRET = entry(STOP, "Take a tool that stands farther out of the turret, and put its overhang into the shop file.")
    MATERIAL_UNKNOWN = entry(
        STOP,
        "Give cutting_speed and specific_cutting_force of the material in the shop file, or --set material.name=NAME "
        "with a name that is known.",
    )
    POWER = entry(STOP | CAUTION, "Lower the feed or the cutting speed in the shop file.")

    # What to look at.
    MATERIAL_ASSUMED = entry(CAUTION, "Give the material in the shop file, or by --set material.name=NAME.")
    MATERIAL_ALONE = entry(NOTE, "See that it is the material, or give that by --set material.name=NAME.")
    MATERIALS_DIFFER = entry(
        CAUTION,
        "See which material is in the machine, and give that one in the shop file or by --set material.name=NAME.",
    )
    BUILT_IN_TOOLS = entry(
        CAUTION, "Give your own inserts in a shop file, or set up exactly what the head of the program says."
    )
    STICK_OUT_UNKNOWN = entry(CAUTION, "Measure the stick-out, and give stick_out in the shop file.")
    STICK_OUT = entry(CAUTION, "Support the part with a centre or a steady, or clamp it shorter.")
    GRIP_SHORT = entry(CAUTION, "Clamp the part deeper, or support it with a centre; see the manual of the chuck.")
    BENDS = entry(CAUTION, "Support the part with a centre or a steady, or lower the feed.")
    BLADE_BENDS = entry(
        CAUTION,
        "Take a wider insert or one that stands out less, or lower the feed; give blade_height in the shop file.",
    )
    SPEED_HIGH = entry(CAUTION, "Put cutting_speed right in the shop file.")
    ORDER = entry(CAUTION, "See whether the thin land bends, and lower the feed if it does.")
    THIN_LAND = entry(CAUTION, "Measure the land after the second groove is cut, and lower the feed if it bends.")
    THIN_NECK = entry(CAUTION, "Lower the feed near the floor, and support the part.")
    DEEP_AND_NARROW = entry(CAUTION, "Watch the chips; take a wider insert, if the groove has room for one.")
    FEED_HIGH = entry(
        CAUTION, "Lower the feed of the tool in the shop file, if the data sheet of the insert says less."
    )
    CHAMFER_NOT_CUT = entry(CAUTION, "Cut the chamfer with another tool, or break the edge by hand.")
    RADIUS_NOT_CUT = entry(CAUTION, "Round the edge with another tool, or break it by hand if that will do.")
    HOLDER_NEAR_SHOULDER = entry(
        CAUTION, "See that the holder clears the shoulder, or give holder_near and holder_far in the shop file."
    )
    BORE_UNCHECKED = entry(CAUTION, "See that the bar goes into the bore, and give its min_bore in the shop file.")
    BAR_OVERHANG = entry(CAUTION, "Take a bar that stands out less or is thicker, or lower the feed.")
    CHIP_ROOM = entry(CAUTION, "Watch the chips, and take a thinner bar if they jam.")
    FACE_CURVE_UNCHECKED = entry(
        CAUTION, "See that the insert clears the outer wall, and give its face_min and face_max in the shop file."
    )
    PECK_WITHOUT_RETRACT = entry(CAUTION, "Give the insert a retract in the shop file, or peck = 0 if it needs none.")

    # What is worth knowing.
    STARTING_VALUES = entry(
        NOTE, "Take speed and force from the data sheet of the insert, and give the material in the shop file."
    )
    CORNER_SHARP_AS_DRAWN = entry(NOTE, "Nothing, unless the drawing asks for sharper corners than the insert leaves.")
    THIN_CUT = entry(NOTE, "Measure the first groove.")
    WIDTH_NEAR_LIMIT = entry(NOTE, "Measure the first groove.")
    CYCLE_RETRACT_UNKNOWN = entry(NOTE, "Give cycle_retract in the shop file, if the time matters.")
    TOOL_SAVES = entry(NOTE, "Give --prefer time, or a batch in the shop file, if the tool is worth setting up.")
    INSERT_SAVES = entry(NOTE, "Put such an insert into the shop file, if the time is worth its price.")
    BATCH_HOURS = entry(NOTE, "Nothing: it says how long the batch takes.")
