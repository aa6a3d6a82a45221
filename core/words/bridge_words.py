"""Texts of the pages round the legs: front sheets, cards for the bridge, tables, receipt.

They belong to the same table as ``core.words.messages``; the same rules of wording hold.
"""

from enum import StrEnum


class Bridge(StrEnum):
    """Titles, heads and short phrases."""

    # Parts of the book
    FRONT = "Passage and waypoints"
    MASTER_CARD = "Call the master"
    LANDFALL = "Landfall card"
    NEXT_HOURS = "Next four hours"
    LEG_SHEETS = "Leg sheets"
    SETUPS = "Set-up cards, tune checks"
    PICTURES = "Pictures at the tune checks"
    FIXES = "Range scales, radar fixes"
    PAINTS = "First paint, all objects"
    WEATHER = "First paint in other weather"
    OBJECTS = "All objects"
    REST = "In full: what did not fit"
    HEIGHTS = "Height table"
    RECEIPT = "Receipt, cautions and signatures"
    PILOT_CARD = "Pilot card"

    # Front sheets
    CONTENTS = "Contents"
    PAGE = "page"
    VOYAGE = "Voyage no."
    DRAUGHTS = "Draught fwd / aft"
    AIR_DRAUGHT = "Air draught"
    ANTENNAS = "Antennas above water"
    SPEEDS = "Speed"
    START = "Start"
    END = "End"
    LOAD_CONDITION = "Load condition"
    WAYPOINTS = "Waypoints, WGS 84"
    COLUMN_NUMBER = "no."
    COLUMN_WAYPOINT = "waypoint"
    COLUMN_POSITION = "position"
    COLUMN_COURSE = "course ° T"
    COLUMN_TOTAL = "total NM"
    COLUMN_TO_GO = "to go NM"
    COLUMN_ETA = "ETA"
    COLUMN_RADIUS = "turn NM"
    COLUMN_CORRIDOR = "corr. P/S, c"
    WAYPOINTS_MEAN = (
        "Course, NM, kn and corridor are those of the leg that begins at the waypoint; turn is the "
        "planned radius there; to go is to the last waypoint."
    )
    CHARTS = "Charts and publications"
    COLUMN_CHART = "chart or publication, no."
    COLUMN_EDITION = "edition"
    COLUMN_CORRECTED = "corrected to"
    EQUIPMENT = "Equipment"
    COLUMN_ITEM = "item"
    COLUMN_STATE = "state"
    RADAR_MONITOR = "{radar}, perf. monitor"
    GYRO = "gyro, error"
    LOG = "log"
    GNSS = "GNSS"
    AIS = "AIS"
    ECHO_SOUNDER = "echo sounder"
    CHART_DISPLAY = "chart display"

    # Call-the-master card
    MASTER_MEANS = (
        "Overdue and not seen: call the master, check radar and position. Only these times call "
        "the master; they are rounded up to the minute. by: expected with the radar fitted."
    )
    COLUMN_OVERDUE = "overdue"
    COLUMN_WHAT = "object, what it is"
    NO_OVERDUE_ON = "No overdue limit on leg {legs}."

    # Landfall card
    NO_LAND = "No land within 24 NM is expected to paint from {start} to {stop} {zone}."
    FIX_AT = "Fix by ranges at {time} {zone}, leg {leg}, {to_go} to go"
    NO_FIX = "No two ranges cut within 24 NM of the first land. Fix by other means."
    RANGES = "Ranges for the fix"
    COLUMN_READ = "read"
    CUTS = "Angle of cut: {cuts}; 60° and more is best, below 30° of little use."
    SUMMIT_NOTE = "A summit's echo begins at the face that shows: its range reads short of the top."
    RANGES_MEAN = "To the near edge of each echo, from this place on the planned line."
    LANDFALL_PICTURE = "Expected picture there: {scale} scale, course-up {course}. {calculated}"
    LANDFALL_PLAIN = "Place of the objects: {scale} scale, course-up {course}; no echoes drawn."
    KEY_RING = "object of the fix; broken arcs: its range"
    FIRST_OBJECTS = "What paints first, as it comes"
    ALL_LISTED = "All objects: the list of first paints, and the next four hours."
    MUST_NOT_THERE = "Must not paint there, hidden by land"
    NOTHING_HIDDEN = "Nothing known."
    LOOKS_ALIKE = "Look-alike coasts"
    ALIKE = "{along} along leg {leg}: {share} like the picture {distance} to {bearing} of there."
    IN_NEXT_HOURS = "pages of the next four hours"
    IN_FINDINGS = "findings of its leg"
    NO_ALIKE = "None found by shape; identify by more than shape all the same."

    # Next four hours
    NEXT_HOURS_OF = "Next four hours, {span} {zone}"
    NEXT_HOURS_MEAN = (
        "from: may paint from then on; by: expected by then; OVERDUE: call the master. Range in "
        "NM, true bearing. Must not: if it paints, doubt the position, then what it is. In large "
        "letters: what the leg uses, your marks, what calls the master; «also»: other first paints."
    )
    ALSO = "also"
    EVENT_FROM = "from"
    EVENT_BY = "by"
    EVENT_SIGHT = "in sight"
    EVENT_OVERDUE = "OVERDUE"
    EVENT_WHEEL_OVER = "WHEEL"
    EVENT_PRE_ALERT = "pre-alert"
    EVENT_HAND_OVER = "hand over"
    EVENT_GAP = "NO INDEX"
    EVENT_SCALE = "scale"
    EVENT_TUNE = "tune"
    EVENT_MUST_NOT = "must not"
    TILL = "till {when}"
    MAY_PAINT_FROM = "from {when}"
    PRE_ALERT = "{minutes} to wheel-over"
    PLAIN_TURN = "no line, no check mark"
