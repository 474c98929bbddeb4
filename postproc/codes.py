"""The register of what may be found in a program: each code with its levels and its remedy. None can be accepted."""

from extractor.finding import CAUTION, NOTE, STOP, Code, Registered


class ProgramCode(Code):
    """What the reader and the judge of programs find."""

    # Words and blocks.
    FRAME = Registered("frame", STOP | CAUTION, "Put one % on a line of its own before the program, and one after it.")
    COMMENT = Registered("comment", STOP, "Mend the parentheses of the comment.")
    MACRO_VARIABLE = Registered("macro-variable", STOP, "Give the variable a value, or write the numbers out.")
    SKIP_INSIDE_BLOCK = Registered("skip-inside-block", STOP, "Put the / at the beginning of the block.")
    UNKNOWN_CHARACTER = Registered("unknown-character", STOP, "Correct the character, or take it out.")
    WORDS_IN_REMARK = Registered(
        "words-in-remark",
        STOP | CAUTION,
        "Put what follows the semicolon in a block of its own if it is meant to run, or take it out.",
    )
    TAPE_CHARACTER = Registered("tape-character", NOTE, "Nothing: the control leaves such characters out.")
    UNKNOWN_WORD = Registered(
        "unknown-word", STOP, "Correct the word or take it out, or give the --dialect that the program is written in."
    )
    REPEATED_WORD = Registered("repeated-word", STOP, "Keep one of the two words.")
    TWO_OF_A_GROUP = Registered("two-of-a-group", STOP, "Keep one of the two words, or write two blocks.")
    NUMBER_TOO_LONG = Registered("number-too-long", STOP, "Check the digits of the word.")
    NO_DECIMAL_POINT = Registered("no-decimal-point", STOP, "Write the decimal point.")
    POINT_IN_WHOLE_WORD = Registered(
        "point-in-whole-word", STOP, "Write the word as a whole number of least increments."
    )
    FINER_THAN_INCREMENT = Registered("finer-than-increment", CAUTION, "Give the word fewer digits.")
    SIGNED_AMOUNT = Registered("signed-amount", STOP, "Take the sign away.")
    NEGATIVE_RETRACT = Registered("negative-retract", STOP, "Write the retract without a sign.")
    SMALL_RETRACT = Registered("small-retract", CAUTION, "Write the decimal point, if a longer retract is meant.")
    CODE_SYSTEMS_MIXED = Registered(
        "code-systems-mixed", CAUTION, "Check in the control's manual that it takes the word."
    )
    OWN_SWITCH = Registered("own-switch", CAUTION, "Look up in the machine's manual what the word does.")
    CORNER_WORD = Registered(
        "corner-word", STOP | CAUTION, "Write each line and each arc as a block of its own with its end."
    )
    BARE_PLACE = Registered("bare-place", CAUTION, "Write the word for rapid or for feed before the place.")
    NO_MOTION_WORD = Registered("no-motion-word", STOP, "Write the word for rapid or for feed in the block.")

    DWELL_IN_CYCLE = Registered("dwell-in-cycle", STOP, "Take the wait out of the cycle, and write a dwell.")

    # Units and zero.
    UNITS_CHANGED = Registered("units-changed", STOP, "Keep to one unit in the whole program.")
    UNITS_LATE = Registered("units-late", STOP, "Put the unit word before the first length.")
    UNITS_NOT_SAID = Registered("units-not-said", CAUTION, "Write the word for the units at the head of the program.")
    UNITS_DIFFER = Registered(
        "units-differ", STOP | CAUTION, "Correct the unit word, or convert the program to the units of the drawing."
    )
    WORK_OFFSET = Registered("work-offset", CAUTION, "See that the work offset puts Z0 at the front face.")
    ZERO_SHIFT = Registered("zero-shift", STOP, "Use one work offset, and take out what moves the zero.")
    BEFORE_THE_FACE = Registered(
        "before-the-face", STOP, "See that Z is negative toward the chuck and Z0 at the front face."
    )

    # The run of the program.
    NUMBER_TWICE = Registered("number-twice", STOP, "Give the second program another number.")
    SUBPROGRAM = Registered("subprogram", STOP, "Put the subprogram that is called into the file, or correct the call.")
    NO_RETURN = Registered("no-return", STOP, "End the subprogram with the word that goes back to its caller.")
    NO_END = Registered("no-end", CAUTION, "End the program with the word for its end.")
    ENDLESS = Registered("endless", CAUTION, "End the program with the word for its end, if one pass is meant.")
    NOT_RUN = Registered("not-run", CAUTION, "Take out the blocks that nothing leads to, or call them.")
    RUNAWAY = Registered("runaway", STOP, "Check the repeats, pecks and shifts at the place named.")
    CONTOUR_MISSING = Registered(
        "contour-missing", STOP, "Write the block at which the contour of the roughing cycle ends."
    )
    BLOCK_SKIP = Registered("block-skip", CAUTION, "Set the block skip of the control as the program needs it.")
    NO_MOVES = Registered("no-moves", STOP, "Give the file of the program that cuts this part.")

    # Tools, spindle, feed.
    TOOL_WORD = Registered(
        "tool-word", STOP | CAUTION, "Write station and offset of the tool in full, as the control wants them."
    )
    TOOL_UNKNOWN = Registered(
        "tool-unknown", STOP, "Give the tool with its width, reach and reference edge in the shop file."
    )
    TOOL_NOT_FOLLOWED = Registered(
        "tool-not-followed",
        CAUTION,
        "Check the shape of this tool yourself: it was followed as a point only.",
    )
    INSERT_UNKNOWN = Registered(
        "insert-unknown",
        STOP | NOTE,
        "Give --shop FILE with the width, corner radius and reference edge of the insert.",
    )
    INSERT_DIFFERS = Registered(
        "insert-differs", STOP, "See which insert is in the turret, and put the heading or the shop file right."
    )
    OFFSET = Registered("offset", STOP, "Call the tool with the offset that the shop file gives.")
    RADIUS_COMPENSATION = Registered(
        "radius-compensation", STOP, "Program the edge of the insert itself, with no radius compensation."
    )
    SPINDLE_OFF = Registered("spindle-off", STOP, "Start the spindle with its speed before the first cut.")
    SPINDLE_AFTER_WAIT = Registered(
        "spindle-after-wait", CAUTION, "Start spindle and coolant again after the wait, where the control stops them."
    )
    SPINDLE_REVERSE = Registered(
        "spindle-reverse",
        STOP | CAUTION,
        "See how the insert is mounted, and give the tool's spindle, cw or ccw, in the shop file.",
    )
    SPINDLE_WITH_COOLANT = Registered("spindle-with-coolant", CAUTION, "Write spindle and coolant as two words.")
    COOLANT_OFF = Registered(
        "coolant-off",
        CAUTION | NOTE,
        "Switch the coolant on before the first cut, or give coolant = false in the shop file.",
    )
    SPINDLE_MODE_NOT_SAID = Registered(
        "spindle-mode-not-said", CAUTION, "Write the word for rev/min or for surface speed before S."
    )
    SPEED_NOT_SAID = Registered("speed-not-said", CAUTION, "Give S for the mode in force.")
    SPEED_TOO_GREAT = Registered(
        "speed-too-great", STOP, "Check the digits of S, and the cutting speed in the shop file."
    )
    SPEED_UNUSUAL = Registered("speed-unusual", CAUTION, "Check that this cutting speed is what you want.")
    OVER_SPEED = Registered(
        "over-speed", STOP | CAUTION, "Lower S or its clamp, and give the max_rpm of the machine in the shop file."
    )
    NO_CLAMP = Registered("no-clamp", STOP, "Give the highest spindle speed before surface speed is called for.")
    CLAMP_LATE = Registered("clamp-late", CAUTION, "Put the highest spindle speed before surface speed is called for.")
    NO_FEED = Registered("no-feed", STOP, "Give an F above 0 before the first cut.")
    FEED_MODE_NOT_SAID = Registered("feed-mode-not-said", CAUTION, "Write whether F is per revolution or per minute.")
    FEED_PER_MINUTE = Registered(
        "feed-per-minute", STOP, "Write the word for feed per revolution, or give F per minute."
    )
    FEED_TOO_GREAT = Registered("feed-too-great", STOP, "Check the feed mode and the decimal point of F.")
    FEED_UNUSUAL = Registered("feed-unusual", CAUTION, "Check that this feed is what you want.")
    FEED_SWINGS = Registered("feed-swings", CAUTION, "Give the feed per revolution.")
    DWELL = Registered("dwell", STOP, "Give the time of the dwell.")
    DWELL_LONG = Registered("dwell-long", CAUTION, "See whether a dwell is meant, or a move.")
    DWELL_MISSING = Registered(
        "dwell-missing", CAUTION, "Write the dwell where the insert stands at the floor, if the floor needs it."
    )
    DWELL_BY_TURNS = Registered("dwell-by-turns", CAUTION, "Give the time of the dwell.")
    HOME = Registered("home", CAUTION, "Name the axes that go to the reference point.")
    PLACE_UNKNOWN = Registered("place-unknown", STOP, "Give X and Z in a block before the first cut.")

    # Cycles and arcs.
    CYCLE_WORD_MISSING = Registered("cycle-word-missing", STOP, "Give the cycle the word that it lacks.")
    CYCLE_START_UNKNOWN = Registered("cycle-start-unknown", STOP, "Put a rapid to X and Z before the cycle.")
    CYCLE_WITHOUT_MOTION = Registered("cycle-without-motion", STOP, "Start the cycle above the land.")
    CYCLE_NOT_FOLLOWED = Registered("cycle-not-followed", STOP, "Write the cycle out, or use the grooving cycle.")
    CYCLE_IN_AIR = Registered("cycle-in-air", CAUTION, "See whether a rapid to the start of the cycle was left out.")
    RELIEF_AT_FLOOR = Registered("relief-at-floor", STOP, "Leave the relief out of the cycle.")
    START_BELOW_LAND = Registered("start-below-land", STOP, "Start above the highest metal nearby.")
    PECK_NOT_SAID = Registered("peck-not-said", CAUTION, "Give the cycle the depth of a peck.")
    PECK_OUT_BY_TEN = Registered("peck-out-by-ten", STOP, "Check the digits of the peck.")
    NO_PECKS = Registered("no-pecks", CAUTION, "Cut the plunge in pecks, if its chips are long.")
    RETRACT_NOT_SAID = Registered("retract-not-said", CAUTION, "Give the block that sets the retract before the cycle.")
    RETRACT_UNUSUAL = Registered("retract-unusual", CAUTION, "Check that this retract is what you want.")
    SPAN_NOT_WHOLE = Registered("span-not-whole", STOP | CAUTION, "Correct the end of the cycle or its shift.")
    SHIFT_OUT_BY_TEN = Registered("shift-out-by-ten", STOP, "Check the digits of the shift.")
    ARC = Registered("arc", STOP, "Correct the end of the arc, its R or its centre.")
    ARC_RADIUS_SHORT = Registered("arc-radius-short", CAUTION, "Make R a little longer.")
    ARC_OFF_CIRCLE = Registered("arc-off-circle", CAUTION, "Give I and K more digits, or write R.")

    # Moves.
    RAPID_INTO_MATERIAL = Registered("rapid-into-material", STOP, "Go round the metal, or cut there at feed.")
    SIDEWAYS_IN_SOLID = Registered(
        "sideways-in-solid", STOP | CAUTION, "Plunge first, then take the floor in a shallow pass."
    )
    RAPID_BENDS = Registered("rapid-bends", STOP | CAUTION, "Move one axis after the other.")
    NO_CLEARANCE = Registered("no-clearance", CAUTION, "Stay a little off the metal.")
    TOO_FAR = Registered("too-far", STOP, "Check the digits and the decimal point of the place.")
    FAR_PLACE = Registered("far-place", CAUTION, "Check the digits and the decimal point of the place.")
    INDEX_NEAR_PART = Registered(
        "index-near-part", STOP | CAUTION, "Move clear of the part before the turret is indexed or an offset cancelled."
    )
    ZERO_BESIDE_PART = Registered(
        "zero-beside-part", STOP, "Move the tool there, rather than telling the control that it is there."
    )
    INTO_JAWS = Registered("into-jaws", STOP, "Clamp the part farther out, or cut farther from the jaws.")
    BAR_STRIKES = Registered("bar-strikes", STOP, "Stay nearer to the wall that is cut, or take a thinner bar.")
    INTO_TAILSTOCK = Registered("into-tailstock", STOP, "Stay above the tailstock's centre in front of the part.")
    BEYOND_REACH = Registered("beyond-reach", STOP, "Take an insert with a longer reach.")
    REACH_UNKNOWN = Registered(
        "reach-unknown", CAUTION, "See that the holder clears the metal, and give max_depth in the shop file."
    )

    # Against the drawing.
    LAND_CUT = Registered("land-cut", STOP, "See which block cuts the land, and correct its place.")
    LAND_PARTLY_CUT = Registered("land-partly-cut", STOP, "Make all of the low land, or leave it to turning.")
    RECESS_LEFT = Registered("recess-left", STOP, "Compare the drawing with what was read of it.")
    CUTS_BEHIND_PART = Registered(
        "cuts-behind-part", CAUTION, "See that the cut behind the part is meant, as for parting off."
    )
    PARTS_OFF = Registered("parts-off", NOTE, "Nothing: it says where the program parts the piece off.")
    SPACING = Registered("spacing", STOP, "Correct the place of one of the two grooves.")
    FLOOR_UNEVEN = Registered("floor-uneven", STOP, "Let the plunges overlap, or go over the floor once more.")
    FORM = Registered("form", STOP, "Correct the path, or take the insert that the groove is drawn for.")
    CORNER_RADIUS = Registered("corner-radius", STOP | CAUTION, "Take an insert with a smaller corner radius.")
    CORNER_SHARPER = Registered(
        "corner-sharper", NOTE, "See that a sharper corner will do where the drawing has a round one."
    )
    EDGE_BROKEN = Registered(
        "edge-broken", CAUTION, "See that the broken edges are allowed where the drawing has sharp ones."
    )
    EDGE_CHAMFER = Registered("edge-chamfer", CAUTION, "See that the chamfers are cut by another tool or by hand.")
    MOUTH_CHAMFERED = Registered("mouth-chamfered", STOP, "Break the edges less, or leave them sharp.")

    # Turning, threading and drilling, and what was left open.
    DEPTH_NOT_SAID = Registered("depth-not-said", CAUTION, "Give the depth of a pass in the block before the cycle.")
    CONTOUR_TURNS_BACK = Registered(
        "contour-turns-back", CAUTION, "Look up in the control's manual how it cuts such a contour."
    )
    DIRECTIVE = Registered("directive", CAUTION, "Take the line out before the program is run.")
    DIALECT_GUESSED = Registered(
        "dialect-guessed",
        NOTE,
        "Name the control with --dialect or in the shop file, if it was taken for the wrong one.",
    )
    TONGUE_UNCLEAR = Registered("tongue-unclear", STOP, "Name the control with --dialect or in the shop file.")
    FIRST_MOVE_ALONG_Z = Registered(
        "first-move-along-z", CAUTION, "Move X before Z, or go to the reference point first."
    )
    ZERO_SLIP = Registered(
        "zero-slip",
        STOP,
        "Correct the place that the program says the tool stands at, or the one that it comes back to.",
    )
    STOPPED_IN_GROOVE = Registered(
        "stopped-in-groove",
        STOP | CAUTION,
        "Bring the insert out of the groove before the program waits or the spindle stops.",
    )
    THREAD_SPEED = Registered("thread-speed", STOP, "Cut the thread at a fixed spindle speed.")
    THREAD_TOO_DEEP = Registered("thread-too-deep", STOP, "Check X, Z and F of the thread.")
    DRILL_OFF_AXIS = Registered("drill-off-axis", STOP, "Drill at X0, or call the tool that was meant.")
    DRILL_SPEED = Registered("drill-speed", STOP, "Use a fixed spindle speed for a tool that works along the axis.")
    PAST_AXIS = Registered("past-axis", STOP, "Check the digits and the sign of X.")
    CUT_AFTER_PARTING = Registered("cut-after-parting", STOP, "Part off after all other cuts.")
    THREAD_LEAD = Registered("thread-lead", STOP, "Check F of the thread, and its X.")
    THREAD_IN_AIR = Registered("thread-in-air", STOP, "Check X and the sign of Z of the thread.")
    THREAD_HEIGHT = Registered("thread-height", STOP, "Check the height of the thread, and X.")
    THREAD_NOT_HELD = Registered(
        "thread-not-held", CAUTION, "See that the drawing has a thread there, as long and as deep."
    )
    LAND_LEFT = Registered("land-left", STOP, "Turn the land to the diameter drawn, or finish it.")
    LAND_DIFFERS = Registered("land-differs", CAUTION, "See that the drawing allows the diameter.")
    SPEED_TOO_SMALL = Registered("speed-too-small", STOP, "Check the digits of S and of the clamp.")
    SPEED_MODE = Registered("speed-mode", STOP | CAUTION, "Call for constant surface speed, if S is a surface speed.")
