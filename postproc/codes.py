"""The register of what may be found in a program: each code with its levels and its remedy. None can be accepted."""

from extractor.finding import CAUTION, NOTE, STOP, Code, entry


class ProgramCode(Code):
    """What the reader and the judge of programs find."""

    # Words and blocks.
    FRAME = entry(STOP | CAUTION, "Put one % on a line of its own before the program, and one after it.")
    COMMENT = entry(STOP, "Mend the parentheses of the comment.")
    MACRO_VARIABLE = entry(STOP | CAUTION | NOTE, "Give the variable a value, or write the numbers out.")
    CONTROL_DATA = entry(
        STOP | CAUTION, "Take out what writes to the control's own data, and set such data at the machine."
    )
    MACRO_ROUNDING = entry(CAUTION, "Compare with half a step to spare, so that no last digit decides.")
    SKIP_INSIDE_BLOCK = entry(STOP, "Put the / at the beginning of the block.")
    UNKNOWN_CHARACTER = entry(STOP, "Correct the character, or take it out.")
    WORDS_IN_REMARK = entry(
        STOP | CAUTION, "Put what follows the semicolon in a block of its own if it is meant to run, or take it out."
    )
    TAPE_CHARACTER = entry(NOTE, "Nothing: the control leaves such characters out.")
    UNKNOWN_WORD = entry(STOP, "Correct the word or take it out, or give the --dialect that the program is written in.")
    REPEATED_WORD = entry(STOP, "Keep one of the two words.")
    TWO_OF_A_GROUP = entry(STOP, "Keep one of the two words, or write two blocks.")
    NUMBER_TOO_LONG = entry(STOP, "Check the digits of the word.")
    NO_DECIMAL_POINT = entry(
        STOP, "Write the decimal point, or say in the shop file what numbers without one count (machine.whole_numbers)."
    )
    POINT_IN_WHOLE_WORD = entry(STOP, "Write the word as a whole number of least increments.")
    FINER_THAN_INCREMENT = entry(CAUTION, "Give the word fewer digits.")
    SIGNED_AMOUNT = entry(STOP, "Take the sign away.")
    NEGATIVE_RETRACT = entry(STOP, "Write the retract without a sign.")
    SMALL_RETRACT = entry(CAUTION, "Write the decimal point, if a longer retract is meant.")
    CODE_SYSTEMS_MIXED = entry(CAUTION, "Check in the control's manual that it takes the word.")
    OWN_SWITCH = entry(CAUTION, "Look up in the machine's manual what the word does.")
    CORNER_WORD = entry(STOP | CAUTION, "Write each line and each arc as a block of its own with its end.")
    OTHER_AXIS = entry(CAUTION, "Look up in the machine's manual what that axis moves, and see that it is clear.")
    BARE_PLACE = entry(CAUTION, "Write the word for rapid or for feed before the place.")
    NO_MOTION_WORD = entry(STOP, "Write the word for rapid or for feed in the block.")

    DWELL_IN_CYCLE = entry(STOP, "Take the wait out of the cycle, and write a dwell.")

    # Units and zero.
    UNITS_CHANGED = entry(STOP, "Keep to one unit in the whole program.")
    UNITS_LATE = entry(STOP, "Put the unit word before the first length.")
    UNITS_NOT_SAID = entry(CAUTION, "Write the word for the units at the head of the program.")
    UNITS_DIFFER = entry(STOP | CAUTION, "Correct the unit word, or convert the program to the units of the drawing.")
    WORK_OFFSET = entry(STOP | CAUTION, "See that the work offset puts Z0 at the front face.")
    ZERO_SHIFT = entry(STOP, "Use one work offset, and take out what moves the zero.")
    BEFORE_THE_FACE = entry(STOP | CAUTION, "See that Z is negative toward the chuck and Z0 at the front face.")

    # The run of the program.
    NUMBER_TWICE = entry(STOP, "Give the second program or block another number.")
    SUBPROGRAM = entry(STOP, "Put the subprogram that is called into the file, or correct the call.")
    NO_RETURN = entry(STOP, "End the subprogram with the word that goes back to its caller.")
    NO_END = entry(CAUTION, "End the program with the word for its end.")
    ENDLESS = entry(CAUTION, "End the program with the word for its end, if one pass is meant.")
    NOT_RUN = entry(CAUTION, "Take out the blocks that nothing leads to, or call them.")
    RUNAWAY = entry(STOP, "Check the repeats, pecks and shifts at the place named.")
    CONTOUR_MISSING = entry(STOP, "Write the block at which the contour of the roughing cycle ends.")
    BLOCK_SKIP = entry(CAUTION | NOTE, "Set the block skip of the control as the program needs it.")
    NO_MOVES = entry(STOP, "Give the file of the program that cuts this part.")

    # Tools, spindle, feed.
    TOOL_WORD = entry(STOP | CAUTION, "Write station and offset of the tool in full, as the control wants them.")
    TOOL_UNKNOWN = entry(STOP, "Give the tool with its width, reach and reference edge in the shop file.")
    TOOL_NOT_FOLLOWED = entry(CAUTION, "Check the shape of this tool yourself: it was followed as a point only.")
    TOOL_IDLE = entry(CAUTION, "Check the station of the tool word.")
    INSERT_UNKNOWN = entry(
        STOP | NOTE, "Give --shop FILE with the width, corner radius and reference edge of the insert."
    )
    INSERT_DIFFERS = entry(STOP, "See which insert is in the turret, and put the heading or the shop file right.")
    OFFSET = entry(STOP | CAUTION, "Call the tool with the offset that the shop file gives.")
    OFFSET_AFTER_PLACE = entry(CAUTION, "Call the tool before its places, or say X and Z again after the call.")
    RADIUS_COMPENSATION = entry(STOP, "Program the edge of the insert itself, with no radius compensation.")
    SPINDLE_OFF = entry(STOP | CAUTION, "Start the spindle with its speed before the first cut.")
    SPINDLE_AFTER_WAIT = entry(CAUTION, "Start spindle and coolant again after the wait, where the control stops them.")
    SPINDLE_REVERSE = entry(
        STOP | CAUTION, "See how the insert is mounted, and give the tool's spindle, cw or ccw, in the shop file."
    )
    SPINDLE_WITH_COOLANT = entry(CAUTION, "Write spindle and coolant as two words.")
    COOLANT_OFF = entry(
        CAUTION | NOTE, "Switch the coolant on before the first cut, or give coolant = false in the shop file."
    )
    SPINDLE_MODE_NOT_SAID = entry(CAUTION, "Write the word for rev/min or for surface speed before S.")
    SPEED_NOT_SAID = entry(CAUTION, "Give S for the mode in force.")
    SPEED_TOO_GREAT = entry(STOP, "Check the digits of S, and the cutting speed in the shop file.")
    SPEED_UNUSUAL = entry(CAUTION, "Check that this cutting speed is what you want.")
    OVER_SPEED = entry(STOP | CAUTION, "Lower S or its clamp, and give the max_rpm of the machine in the shop file.")
    NO_CLAMP = entry(STOP, "Give the highest spindle speed before surface speed is called for.")
    CLAMP_LATE = entry(CAUTION, "Put the highest spindle speed before surface speed is called for.")
    NO_FEED = entry(STOP, "Give an F above 0 before the first cut.")
    FEED_MODE_NOT_SAID = entry(CAUTION, "Write whether F is per revolution or per minute.")
    FEED_PER_MINUTE = entry(STOP, "Write the word for feed per revolution, or give F per minute.")
    FEED_TOO_GREAT = entry(STOP, "Check the feed mode and the decimal point of F.")
    FEED_UNUSUAL = entry(CAUTION, "Check that this feed is what you want.")
    FEED_SWINGS = entry(CAUTION, "Give the feed per revolution.")
    FEED_WAITS = entry(CAUTION, "Give the feed per minute while the spindle stands.")
    DWELL = entry(STOP | CAUTION, "Give the time of the dwell.")
    DWELL_LONG = entry(CAUTION, "See whether a dwell is meant, or a move.")
    DWELL_MISSING = entry(CAUTION, "Write the dwell where the insert stands at the floor, if the floor needs it.")
    DWELL_BY_TURNS = entry(CAUTION, "Give the time of the dwell.")
    HOME = entry(CAUTION, "Name the axes that go to the reference point, by U0 and W0.")
    PLACE_UNKNOWN = entry(STOP, "Give X and Z in a block before the first cut.")

    # Cycles and arcs.
    CYCLE_WORD_MISSING = entry(STOP, "Give the cycle the word that it lacks.")
    CYCLE_START_UNKNOWN = entry(STOP, "Put a rapid to X and Z before the cycle.")
    CYCLE_WITHOUT_MOTION = entry(STOP, "Start the cycle above the land.")
    CYCLE_NOT_FOLLOWED = entry(STOP, "Write the cycle out, or use the grooving cycle.")
    CYCLE_IN_AIR = entry(CAUTION, "See whether a rapid to the start of the cycle was left out.")
    RELIEF_AT_FLOOR = entry(STOP, "Leave the relief out of the cycle.")
    START_BELOW_LAND = entry(STOP, "Start above the highest metal nearby.")
    PECK_NOT_SAID = entry(CAUTION, "Give the cycle the depth of a peck.")
    PECK_OUT_BY_TEN = entry(STOP, "Check the digits of the peck.")
    NO_PECKS = entry(CAUTION, "Cut the plunge in pecks, if its chips are long.")
    RETRACT_NOT_SAID = entry(CAUTION, "Give the block that sets the retract before the cycle.")
    RETRACT_UNUSUAL = entry(CAUTION, "Check that this retract is what you want.")
    SPAN_NOT_WHOLE = entry(STOP | CAUTION, "Correct the end of the cycle or its shift.")
    SHIFT_OUT_BY_TEN = entry(STOP, "Check the digits of the shift.")
    ARC = entry(STOP, "Correct the end of the arc, its R or its centre.")
    ARC_RADIUS_SHORT = entry(CAUTION, "Make R a little longer.")
    ARC_OFF_CIRCLE = entry(CAUTION, "Give I and K more digits, or write R.")

    # Moves.
    RAPID_INTO_MATERIAL = entry(STOP, "Go round the metal, or cut there at feed.")
    SIDEWAYS_IN_SOLID = entry(STOP | CAUTION, "Plunge first, then take the floor in a shallow pass.")
    RAPID_BENDS = entry(STOP | CAUTION, "Move one axis after the other.")
    NO_CLEARANCE = entry(CAUTION, "Stay a little off the metal.")
    TOO_FAR = entry(STOP, "Check the digits and the decimal point of the place.")
    FAR_PLACE = entry(CAUTION, "Check the digits and the decimal point of the place.")
    INDEX_NEAR_PART = entry(
        STOP | CAUTION, "Move clear of the part before the turret is indexed or an offset cancelled."
    )
    ZERO_BESIDE_PART = entry(STOP, "Move the tool there, rather than telling the control that it is there.")
    INTO_JAWS = entry(STOP, "Clamp the part farther out, or cut farther from the jaws.")
    BAR_STRIKES = entry(STOP, "Stay nearer to the wall that is cut, or take a thinner bar.")
    INTO_TAILSTOCK = entry(STOP, "Stay above the tailstock's centre in front of the part.")
    BEYOND_REACH = entry(STOP, "Take an insert with a longer reach.")
    REACH_UNKNOWN = entry(CAUTION, "See that the holder clears the metal, and give max_depth in the shop file.")

    # Against the drawing.
    LAND_CUT = entry(STOP, "See which block cuts the land, and correct its place.")
    LAND_PARTLY_CUT = entry(STOP, "Make all of the low land, or leave it to turning.")
    RECESS_LEFT = entry(STOP, "Compare the drawing with what was read of it.")
    CUTS_BEHIND_PART = entry(CAUTION, "See that the cut behind the part is meant, as for parting off.")
    PARTS_OFF = entry(NOTE, "Nothing: it says where the program parts the piece off.")
    SPACING = entry(STOP, "Correct the place of one of the two grooves.")
    FLOOR_UNEVEN = entry(STOP, "Let the plunges overlap, or go over the floor once more.")
    FORM = entry(STOP, "Correct the path, or take the insert that the groove is drawn for.")
    CORNER_RADIUS = entry(STOP | CAUTION, "Take an insert with a smaller corner radius.")
    CORNER_SHARPER = entry(NOTE, "See that a sharper corner will do where the drawing has a round one.")
    EDGE_BROKEN = entry(CAUTION, "See that the broken edges are allowed where the drawing has sharp ones.")
    EDGE_CHAMFER = entry(CAUTION, "See that the chamfers are cut by another tool or by hand.")
    EDGE_NOTCHED = entry(STOP, "Move both axes along the chamfer, or leave it to another tool.")
    MOUTH_CHAMFERED = entry(STOP, "Break the edges less, or leave them sharp.")

    # Turning, threading and drilling, and what was left open.
    DEPTH_NOT_SAID = entry(CAUTION, "Give the depth of a pass in the block before the cycle.")
    DEPTH_UNUSUAL = entry(CAUTION, "Check the depth of a pass and its decimal point.")
    CONTOUR_TURNS_BACK = entry(CAUTION, "Look up in the control's manual how it cuts such a contour.")
    DIRECTIVE = entry(CAUTION, "Take the line out before the program is run.")
    DIALECT_GUESSED = entry(
        NOTE, "Name the control with --dialect or in the shop file, if it was taken for the wrong one."
    )
    TONGUE_UNCLEAR = entry(STOP, "Name the control with --dialect or in the shop file.")
    FIRST_MOVE_ALONG_Z = entry(CAUTION, "Move X before Z, or go to the reference point first.")
    ZERO_SLIP = entry(
        STOP | CAUTION, "Correct the place that the program says the tool stands at, or the one that it comes back to."
    )
    STOPPED_IN_GROOVE = entry(
        STOP | CAUTION, "Bring the insert out of the groove before the program waits or the spindle stops."
    )
    THREAD_SPEED = entry(STOP, "Cut the thread at a fixed spindle speed.")
    THREAD_TOO_DEEP = entry(STOP, "Check X, Z and F of the thread.")
    DRILL_OFF_AXIS = entry(STOP, "Drill at X0, or call the tool that was meant.")
    DRILL_SPEED = entry(STOP, "Use a fixed spindle speed for a tool that works along the axis.")
    PAST_AXIS = entry(STOP, "Check the digits and the sign of X.")
    CUT_AFTER_PARTING = entry(STOP, "Part off after all other cuts.")
    THREAD_LEAD = entry(STOP, "Check F of the thread, and its X.")
    THREAD_IN_AIR = entry(STOP, "Check X and the sign of Z of the thread.")
    THREAD_HEIGHT = entry(STOP, "Check the height of the thread, and X.")
    THREAD_NOT_HELD = entry(CAUTION, "See that the drawing has a thread there, as long and as deep.")
    LAND_LEFT = entry(STOP | CAUTION, "Turn the land to the diameter drawn, or finish it.")
    LAND_DIFFERS = entry(CAUTION, "See that the drawing allows the diameter.")
    SPEED_TOO_SMALL = entry(STOP, "Check the digits of S and of the clamp.")
    SPEED_MODE = entry(STOP | CAUTION, "Call for constant surface speed, if S is a surface speed.")
