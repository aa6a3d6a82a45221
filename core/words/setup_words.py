"""Set-up card and tune check in words: settings, reasons, the order of set-up, readings."""

from core.plan import setup_codes as codes
from core.plan.setup_result import Control, SetupRow
from core.plan.tune_result import Rung, TuneReading

SETUP_TEMPLATES: dict[str, str] = {
    codes.SET_RADAR: "{radar} ({band})",
    codes.WHY_ONLY_RADAR: "the only radar of the ship",
    codes.WHY_ONLY_BAND: "all radars of the ship are {band} band",
    codes.WHY_X_IN_FAIR_WEATHER: "tells echoes apart better; {other} in rain or heavy sea",
    codes.WHY_MAIN_RADAR: "main radar of the ship; {other}, X band, tells echoes apart better",
    codes.WHY_S_IN_RAIN: (
        "rain {rain}: S band suffers less; lines and windows are worked out for {planned}"
    ),
    codes.WHY_S_IN_SEA: (
        "sea state {sea_state}: S band suffers less; lines and windows are worked out for {planned}"
    ),
    codes.WHY_S_ALREADY: "S band suffers less in rain and heavy sea",
    codes.WHY_X_IN_WEATHER: "no S band in the ship; X band suffers in rain and heavy sea",
    codes.SET_SCALE: "{scale}",
    codes.SET_CENTRED: "centred",
    codes.SET_OFF_CENTRE: "{share} {direction}",
    codes.WHY_CENTRED: "the scale holds what is needed all round",
    codes.WHY_OFF_CENTRE: "shows more ahead, so that the {scale} scale does",
    codes.SET_PULSE: "{pulse}",
    codes.WHY_PULSE_SHORT: "{pulse} keeps echoes apart{cell}",
    codes.WHY_PULSE_MIDDLE: "{pulse} goes with the scale{cell}",
    codes.WHY_PULSE_LONG: "{pulse} finds land farthest off{cell}",
    codes.SET_GAIN: "up to a light, even speckle",
    codes.WHY_GAIN: "too little gain loses the weak echoes first",
    codes.SET_SEA_OFF: "off or least",
    codes.SET_SEA_LOW: "low, by hand",
    codes.SET_SEA_NEEDED: "as much as needed, by hand; leave some clutter",
    codes.WHY_SEA_OFF: "plan for a smooth sea; it takes small echoes",
    codes.WHY_SEA: "sea state {sea_state}; more loses small echoes, automatic takes land",
    codes.WHY_SEA_HEAVY: "sea state {sea_state}: do not count on boats inside the clutter",
    codes.SET_RAIN_OFF: "off",
    codes.SET_RAIN_NEEDED: "as little as shows through the rain",
    codes.WHY_RAIN_OFF: "plan without rain; it thins the coast",
    codes.WHY_RAIN: "rain {rain}; more thins the coast and takes weak echoes",
    codes.SET_ON: "on",
    codes.SET_OFF: "off",
    codes.WHY_INTERFERENCE_ON: "takes other radars away; off for a racon",
    codes.WHY_RACON: "racon {object} in use: it can take the reply away",
    codes.WHY_RACON_ON_S: "racon {object} in use; many answer X band alone",
    codes.WHY_STRETCH_OFF: "it moves edges and runs echoes together",
    codes.WHY_STRETCH_ON: "makes weak land larger; off to measure",
    codes.SET_TRAILS: "relative, {trail}",
    codes.WHY_TRAILS_INDEX: "the trail of an indexed echo shows drift",
    codes.WHY_TRAILS_WATCH: "a trail towards the centre shows risk of collision",
    codes.SET_VECTOR: "relative, {vector}",
    codes.WHY_VECTOR: "the time in hand the scale is chosen for",
    codes.SET_EBL_VRM: "EBL {mark_bearing}, VRM {mark_range}",
    codes.SET_NONE: "none",
    codes.WHY_SECOND_MARK: "{object} at the wheel-over",
    codes.WHY_SAID: "{cause}",
    codes.SET_INDEX_LINE: "{object} {side} {limit}{index}, {line}",
    codes.SET_SECOND_RADAR: "{radar}: {scale}, {pulse}",
    codes.TUNE_PLACE: "ship steady, {before} before radar is needed most",
    codes.TUNE_PLACE_LATE: "ship steady; no earlier place has echoes as good",
    codes.TUNE_STRONG: "{margin} to spare",
    codes.TUNE_MEDIUM: "{margin} to spare",
    codes.TUNE_WEAK: "{margin} to spare",
    codes.TUNE_ABSENT: "behind {masked_by}",
    codes.TUNE_ABSENT_MARGINAL: "behind {masked_by}; comes out soon before or after",
    codes.TUNE_NO_RUNG: "no echo with {limits} to spare",
    codes.TUNE_NO_MASKED: "nothing on the screen is hidden by land",
    codes.TUNE_NOT_APART: "no such echo stands apart from the others",
    codes.TUNE_NOT_WORKED_OUT: "echoes were not worked out for this leg",
    codes.TUNE_NO_OBJECTS: "no land and no mark is in reach of this leg",
    codes.TUNE_NO_STEADY: "in {leg} the ship is not steady long enough between the turns",
    codes.TUNE_NOTHING_SEEN: (
        "nothing is expected with {least} or more to spare on the scales of a check"
    ),
}
"""Sentence of each code of the card and the check; braces as in ``reasons.py``."""

COMMON_PRACTICE_SIGN = "†"
COMMON_PRACTICE = "† common practice, no source"

ORDER_OF_SET_UP = (
    "Switch on early and leave in standby: a cold set needs some minutes.",
    "Take a medium scale, 6 or 12 NM, and a long or medium pulse; relative motion, north up or "
    "head up as wished.",
    "Turn sea clutter, rain clutter, interference rejection and all automatic controls off or to "
    "least.",
    "Turn brilliance up until the background just shows.",
    "Turn gain up until speckle fills the screen well.",
    "Tune for most: by the tuning bar, or by most and brightest echoes of land of medium strength; "
    "without any echo by the performance monitor.",
    "Turn gain back until a light, even speckle stays. Too little gain loses weak echoes first.",
    "Set brilliance and palette to comfort.",
    "Add only as much suppression as is needed, and see that a known weak echo survives. Take it "
    "off again when the weather changes.",
    "Check heading marker, index error by a known range, and performance monitor; log them.",
    "Then set scale, pulse, lines and the rest by the card of the leg, one thing at a time. Look "
    "out on a longer scale at intervals.",
)
"""Order of manual set-up (handbook 11; common practice, no source)."""

WHEN_TUNED = (
    "A light, even speckle over open water; none is too little gain, a grey screen too much.",
    "Sharp near edges of land. Far edges are soft: the pulse and the beam draw them out.",
    "Sea clutter round the ship thins outward evenly; if it is cleared to black, small echoes "
    "are gone with it.",
    "Weak land and marks of the tune check stay when the antenna has turned a few times.",
    "The performance monitor reads as when it was logged last; a drop is looked into.",
)
"""What to expect of a set that is set up well (common practice, no source)."""

READINGS: dict[TuneReading, tuple[str, str]] = {
    TuneReading.AS_EXPECTED: (
        "As expected",
        "set and position agree with the plan; log gain, time and performance monitor",
    ),
    TuneReading.WEAK_MISSING: (
        "Strong seen, weak missing",
        "gain, tuning or a clutter control; or sub-refraction",
    ),
    TuneReading.STRONG_MISSING: (
        "Strong missing",
        "the set does not work as it should, or the position is wrong: fix by other means",
    ),
    TuneReading.ABSENT_SEEN: (
        "Masked one seen",
        "wrong position, wrong identity, or ducting: fix by other means",
    ),
    TuneReading.ALL_LATE: (
        "All late, near echoes normal",
        "sub-refraction: the air, not the set",
    ),
    TuneReading.NEAR_WEAK: (
        "All late, near echoes weak too",
        "the set: tuning, gain, performance monitor",
    ),
    TuneReading.ALL_EARLY: (
        "Many before their earliest",
        "super-refraction or ducting; second-trace echoes may show",
    ),
}
"""What a pattern of echoes means (job.md 6.2.2 and 4.2.3): its sign, then its meaning."""

BEFORE_READINGS = (
    "Strong: a set that works is expected to show it. Weak: the first to go when something is "
    "amiss. NONE: land is expected to hide it, whatever the set.",
    "dB to spare: how far the echo is expected above the least that the radar named below detects.",
    "For a radar of the minimum standard a well-kept set shows more than is expected: then a "
    "missing echo tells much, one that is seen tells little.",
)
"""What to know of the expected echoes before reading a check."""

_RUNGS = {
    Rung.STRONG: "expect strong",
    Rung.MEDIUM: "expect medium",
    Rung.WEAK: "expect weak",
    Rung.ABSENT: "expect NONE",
}
_CONTROLS = {Control.EBL_VRM: "EBL, VRM", Control.INTERFERENCE: "interf. rejection"}


def rung_words(rung: Rung) -> str:
    """What is expected of a step."""
    return _RUNGS[rung]


def control_words(row: SetupRow) -> str:
    """A control by its trade name, an index line with its number."""
    name = _CONTROLS.get(row.control, row.control.value)
    return f"{name} {row.number}" if row.number else name
