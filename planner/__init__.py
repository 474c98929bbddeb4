"""Part -> plan: shop settings, evenly pitched sets, tool choice, plunges, speeds, checks.

Glossary
    count        a whole number of the control's least increment
    window       the counts at which a groove's place is still within tolerance
    row          like grooves at one pitch, with the start and the shift that place them all inside their windows
    height       a diameter, or inside a diameter with its sign turned: so lands are high on either side
    layout       the plunges within one groove, counted from its near wall
    core         the square middle of a recess whose walls slope
    reference    the edge of the insert that Z is set to: "near" the front face or "far" from it
    plunge       a straight cut along X to the floor, in pecks with a retract between them
    path         the way of an insert's edge along a recess's drawn line, after plunges have roughed it
    shoulder     a land that stands higher than those beside it, within a row or next to one
    fin, neck    a thin land beside a groove, and what little a deep groove leaves across: both bend
    need         that one row is better cut before another
    step         one thing the machine does, said neutrally
    operation    one run of one tool over one set of grooves
"""

from planner.planning import inserts_for, plan_part
from planner.rows.sets import group_grooves
from planner.settings.settled import settled, settled_for
from planner.settings.shopfile import default_shop, parse_shop

__all__ = ["default_shop", "group_grooves", "inserts_for", "parse_shop", "plan_part", "settled", "settled_for"]
