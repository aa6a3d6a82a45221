"""The one table of texts: what command line, plan file, views and sheets say in words.

A translation is another table with the same names. Texts with ``{names}`` are filled by
``format``. Nothing here is worded as certain, and nothing says what a radar will show: until
detection is built the words are «in sight from», geometry only.
"""

from enum import StrEnum


class Say(StrEnum):
    """Titles, heads and short phrases."""

    # Sheets
    LEG_OF = "Leg {number} of {count}"
    PAGE_OF = "Page {number} of {count}"
    PASSAGE_SHEET = "Passage sheet"
    LEG = "Leg"
    INDEX_LINES = "Index lines"
    CONTINUED = "continued"
    ALL_ELSEWHERE = "{title}: {count}, {where}"
    MORE_ELSEWHERE = "+ {count} more, {where}"
    IN_FULL_ON = "all in full: {where}"
    IN_PLAN_FILE = "in the plan file"
    ON_PAGE = "page {page}"
    IN_FULL = "In full: what did not fit on its sheet"
    SHIP_INVENTED = "invented ship"
    PREPARED = "Prepared"
    CHECKED = "Checked"
    APPROVED = "Approved"
    REVISION = "Revision"
    COMPUTED = "computed {when}"
    NO_START_TIME = "no start time given"

    # Leg head
    COURSE = "Course"
    DISTANCE = "Distance"
    SPEED = "Speed"
    TIME = "Time"
    CORRIDOR_SIDES = "Corridor port / stb"
    DATA_QUALITY = "Data quality"
    FROM_TO = "{start} to {stop}"

    # Index table
    COLUMN_OBJECT = "object"
    COLUMN_SIDE = "side"
    COLUMN_SIDE_USE = "side, use"
    OBSERVED = "observed"
    ON_STRIP = "{kind} ({short})"
    COLUMN_RANGE_SHORT = "range"
    COLUMN_CUT = "cut, NM"
    COLUMN_LINE = "line"
    COLUMN_WINDOW = "in use"
    ECHO_TO = "echo to"
    CUT_AHEAD = "ahead {ahead}"
    CUT_ASTERN = "astern {astern}"
    ROLE_PRIMARY = "Primary"
    ROLE_CHECK = "Check"
    ROLE_MARGIN = "Margin"
    ROLE_WHEEL_OVER = "Wheel-over"
    NOTHING_TO_INDEX = "NO INDEX LINE ON THIS LEG"
    CONFIRM_SIGN = "* known from the data alone: confirm on the official chart before use"
    OFFICERS_CHOICE_SHORT = "by officer"

    # Wheel-over
    WHEEL_OVER_TABLE = "Wheel-over"
    ACTUAL = "actual"
    NEW_COURSE = "New course"
    BEFORE_WAYPOINT = "before"
    TURN_RADIUS = "radius"
    RATE_OF_TURN = "rate of turn"
    PRE_ALERTS = "pre-alerts"
    CORNER_CUT = "cuts the corner by"
    WHEN_ON_LINE = "when on the line"
    SECOND_MARK = "check"
    NO_WHEEL_OVER_LINE = "no line: {reason}"
    NO_SECOND_MARK = "no check by range and bearing: {reason}"
    NO_WHEEL_OVER = "No wheel-over: {reason}"
    TO_PORT = "TO PORT"
    TO_STARBOARD = "TO STARBOARD"

    # Other tables
    SCALES = "Range scale"
    OFF_CENTRE = "off-centred {share} {direction}"
    CENTRED = "centred"
    PULSE = "{pulse} pulse"
    HAND_OVERS = "Hand-overs"
    HAND_OVER_FROM_TO = "{start} to {stop}"
    FALLBACK = "else {object}"
    INDEX_GAPS = "Index gaps"
    GAP_SUBSTITUTE = "instead: {substitute}"
    IN_SIGHT = "In sight, geometry only"
    LOST = "lost"
    SEEN_AT = "seen at"
    FROM_START = "In sight from the start of the leg"
    NEVER_IN_SIGHT = "Not in sight on this leg"
    SIGHT_NOT_KNOWN = "Not known, heights missing"
    REASON_FROM_START = "in sight from the start"
    REASON_NEVER = "never"
    EARLIEST = "at the earliest, beyond the data"
    AT_START = "start"
    SIGHT_LIST = "In sight, all objects, leg by leg"
    OBJECT_LIST = "All objects of the passage"
    COLUMN_HEIGHT = "height"
    COLUMN_FROM = "from"
    COLUMN_LEGS = "legs"
    COLUMN_POSITION = "position"
    NM_TO_GO_HEAD = "NM to go"
    FINDINGS = "Findings"
    NO_FINDINGS = "None."
    DATA_GAPS = "Gaps in the data"
    DATA_GAP = "{cause}: {sector}, from {range} on, {effect}"
    EFFECT_OBJECT = "may hide an index object"
    EFFECT_FIRST_SIGHT = "may hide the first sight of land"
    EFFECT_NONE = "hides nothing that is used"
    CAUSE_VOID = "hole in the heights"
    CAUSE_MISSING = "heights missing"
    CAUSE_BEYOND_DATA = "beyond the data"

    # Passage sheet
    LEGS = "Legs"
    COLUMN_LEG = "leg"
    COLUMN_TO = "to"
    COLUMN_COURSE = "course"
    COLUMN_NM = "NM"
    COLUMN_KN = "kn"
    COLUMN_START = "start"
    COLUMN_INDEX = "index objects"
    COLUMN_DATA = "data"
    NONE = "NONE"
    INCOMPLETE = "INCOMPLETE"
    INPUTS = "Inputs"
    SHIP_AND_WATER = "Ship and water"
    DIGEST = "Plan digest"
    OBJECTS = "Objects"
    CAUTIONS = "Cautions"

    # Leg strip
    NM_TO_GO = "to go"
    PORT_SIDE = "PORT"
    STARBOARD_SIDE = "STARBOARD"
    NO_DATA = "no data"
    NO_INDEX = "NO INDEX"
    STRETCHED = "across stretched {factor}"
    PRESSED = "across pressed to {factor}"
    SAME_SCALE = "same scale along and across"
    ACROSS_HALF = "{distance} to each edge"
    WHEEL_OVER_SHORT = "WO"
    SCALE_CHIP = "scale {scale}"
    NOT_LESS_SHORT = "NLT"
    NOT_MORE_SHORT = "NMT"
    KEY_COAST_IN_SIGHT = "coast in sight"
    KEY_COAST_LAND_BEHIND = "coast hidden, land behind it in sight"
    KEY_COAST_HIDDEN = "coast not in sight"
    KEY_PAINTED_EDGE = "painted edge, as expected"
    KEY_COAST_PAINTS_NOT = "coast that does not paint"
    KEY_COAST_OUTSIDE = "coast not swept or not known"
    KEY_HIDDEN_WATER = "craft {height} high hidden all along"
    KEY_NO_DATA = "no data: not open water"
    KEY_INDEX = "index"
    KEY_MARGIN = "margin"
    KEY_WHEEL_OVER = "wheel-over"
    KEY_HAND_OVER = "hand-over"
    KEY_CORRIDOR = "corridor"
    KEY_SIGHT_BAR = "object in sight"

    # Data and water
    ANTENNA = "Antenna {height} above the water now"
    REFRACTION = "{k} (horizon {coefficient} x root of height, NM)"
    TIDE = "Tide {tide} above chart datum, mean sea level {level} above chart datum"
    NO_TIDE = "Tide not given: heights taken above mean sea level"
    RADIUS = "Swept to {radius}"
    RADAR = "Paint calculated for {radar}, {preset}, {pulse} pulse, {weather}"
    CLEAR_WEATHER = "glassy sea, no rain"
    WEATHER = "sea state {sea}, rain {rain} mm/h"
    HEIGHT_ERROR = "Height error {error}"
    HEIGHTS_ASSUMED = "Land heights are an assumption, not data"
    UNDATED = "undated"
    DATA = "Data"
    MORE_SOURCES = "{count} more, page 1"
    GEODESY = "WGS 84, true courses and bearings"


CAUTION_SHORT = (
    "Planning aid only, calculated from open elevation and coast data. Not a chart; says nothing "
    "about depths. Official charts and publications, local rules, company procedures and the "
    "judgement of master and pilot take precedence. An echo that is not predicted may be real."
)
"""Foot of every leg sheet."""

CAUTIONS = (
    "This plan is calculated from open elevation and coast data of the dates shown. It is a "
    "planning aid only: it is not a chart and is not to be navigated by on its own.",
    "It says nothing about depths, nor about marks or obstructions that the data does not hold.",
    "Official charts and publications, local rules, company procedures and the judgement of "
    "master and pilot take precedence.",
    "What the radar shows takes precedence over what is calculated. An echo that is not predicted "
    "may be real; one that is expected may be missed. Look-out and cross-checks go on.",
    "«In sight» is geometry over a smooth Earth with the refraction stated. «Paints» is calculated "
    "for the radar, preset and weather named, from the slope of the ground alone; what the set "
    "shows depends on its state and settings, and may be more or less.",
    "A gap in the data is a gap in the plan. It is never to be read as open water.",
    "Margins come from the officer, never from this plan.",
    "Recompute when time, tide, draught, trim, antenna, speed, track, cargo or data changes. "
    "The plan needs the master's approval before use.",
)
"""The cautions in full, for the passage sheet and the window."""
