"""Set-up card and tune check in words: settings, reasons, the order of set-up, readings."""

from core.base.language import tr
from core.plan import setup_codes as codes
from core.plan.setup_result import Control, SetupRow
from core.plan.tune_result import Rung, TuneReading

SETUP_TEMPLATES: dict[str, str] = {
    codes.SET_RADAR: "{radar} ({band})",
    codes.WHY_ONLY_RADAR: tr("the only radar of the ship"),
    codes.WHY_ONLY_BAND: tr("all radars of the ship are {band} band"),
    codes.WHY_X_IN_FAIR_WEATHER: tr("tells echoes apart better; {other} in rain or heavy sea"),
    codes.WHY_MAIN_RADAR: tr("main radar of the ship; {other}, X band, tells echoes apart better"),
    codes.WHY_S_IN_RAIN: (
        tr("rain {rain}: S band suffers less; lines and windows are worked out for {planned}")
    ),
    codes.WHY_S_IN_SEA: (
        tr(
            "sea state {sea_state}: S band suffers less; lines and windows are "
            "worked out for {planned}"
        )
    ),
    codes.WHY_S_ALREADY: tr("S band suffers less in rain and heavy sea"),
    codes.WHY_X_IN_WEATHER: tr("no S band in the ship; X band suffers in rain and heavy sea"),
    codes.SET_SCALE: "{scale}",
    codes.SET_CENTRED: tr("centred"),
    codes.SET_OFF_CENTRE: "{share} {direction}",
    codes.WHY_CENTRED: tr("the scale holds what is needed all round"),
    codes.WHY_OFF_CENTRE: tr("shows more ahead, so that the {scale} scale does"),
    codes.SET_PULSE: "{pulse}",
    codes.WHY_PULSE_SHORT: tr("{pulse} keeps echoes apart{cell}"),
    codes.WHY_PULSE_MIDDLE: tr("{pulse} goes with the scale{cell}"),
    codes.WHY_PULSE_LONG: tr("{pulse} finds land farthest off{cell}"),
    codes.SET_GAIN: tr("up to a light, even speckle"),
    codes.WHY_GAIN: tr("too little gain loses the weak echoes first"),
    codes.SET_SEA_OFF: tr("off or least"),
    codes.SET_SEA_LOW: tr("low, by hand"),
    codes.SET_SEA_NEEDED: tr("as much as needed, by hand; leave some clutter"),
    codes.WHY_SEA_OFF: tr("plan for a smooth sea; it takes small echoes"),
    codes.WHY_SEA: tr("sea state {sea_state}; more loses small echoes, automatic takes land"),
    codes.WHY_SEA_HEAVY: tr("sea state {sea_state}: do not count on boats inside the clutter"),
    codes.SET_RAIN_OFF: tr("off"),
    codes.SET_RAIN_NEEDED: tr("as little as shows through the rain"),
    codes.WHY_RAIN_OFF: tr("plan without rain; it thins the coast"),
    codes.WHY_RAIN: tr("rain {rain}; more thins the coast and takes weak echoes"),
    codes.SET_ON: tr("on"),
    codes.SET_OFF: tr("off"),
    codes.WHY_INTERFERENCE_ON: tr("takes other radars away; off for a racon"),
    codes.WHY_RACON: tr("racon {object} in use: it can take the reply away"),
    codes.WHY_RACON_ON_S: tr("racon {object} in use; many answer X band alone"),
    codes.WHY_STRETCH_OFF: tr("it moves edges and runs echoes together"),
    codes.WHY_STRETCH_ON: tr("makes weak land larger; off to measure"),
    codes.SET_TRAILS: tr("relative, {trail}"),
    codes.WHY_TRAILS_INDEX: tr("the trail of an indexed echo shows drift"),
    codes.WHY_TRAILS_WATCH: tr("a trail towards the centre shows risk of collision"),
    codes.SET_VECTOR: tr("relative, {vector}"),
    codes.WHY_VECTOR: tr("the time in hand the scale is chosen for"),
    codes.SET_EBL_VRM: tr("EBL {mark_bearing}, VRM {mark_range}"),
    codes.SET_NONE: tr("none"),
    codes.WHY_SECOND_MARK: tr("{object} at the wheel-over"),
    codes.WHY_SAID: "{cause}",
    codes.SET_INDEX_LINE: "{object} {side} {limit}{index}, {line}",
    codes.SET_SECOND_RADAR: "{radar}: {scale}, {pulse}",
    codes.TUNE_PLACE: tr("ship steady, {before} before radar is needed most"),
    codes.TUNE_PLACE_LATE: tr("ship steady; no earlier place has echoes as good"),
    codes.TUNE_STRONG: tr("{margin} to spare"),
    codes.TUNE_MEDIUM: tr("{margin} to spare"),
    codes.TUNE_WEAK: tr("{margin} to spare"),
    codes.TUNE_ABSENT: tr("behind {masked_by}"),
    codes.TUNE_ABSENT_MARGINAL: tr("behind {masked_by}; comes out soon before or after"),
    codes.TUNE_NO_RUNG: tr("no echo with {limits} to spare"),
    codes.TUNE_NO_MASKED: tr("nothing on the screen is hidden by land"),
    codes.TUNE_NOT_APART: tr("no such echo stands apart from the others"),
    codes.TUNE_NOT_WORKED_OUT: tr("echoes were not worked out for this leg"),
    codes.TUNE_NO_OBJECTS: tr("no land and no mark is in reach of this leg"),
    codes.TUNE_NO_STEADY: tr("in {leg} the ship is not steady long enough between the turns"),
    codes.TUNE_NOTHING_SEEN: (
        tr("nothing is expected with {least} or more to spare on the scales of a check")
    ),
}
"""Sentence of each code of the card and the check; braces as in ``reasons.py``."""

COMMON_PRACTICE_SIGN = "†"
COMMON_PRACTICE = tr("† common practice, no source")

ORDER_OF_SET_UP = (
    tr("Switch on early and leave in standby: a cold set needs some minutes."),
    tr(
        "Take a medium scale, 6 or 12 NM, and a long or medium pulse; "
        "relative motion, north up or head up as wished."
    ),
    tr(
        "Turn sea clutter, rain clutter, interference rejection and all "
        "automatic controls off or to least."
    ),
    tr("Turn brilliance up until the background just shows."),
    tr("Turn gain up until speckle fills the screen well."),
    tr(
        "Tune for most: by the tuning bar, or by most and brightest echoes "
        "of land of medium strength; without any echo by the performance "
        "monitor."
    ),
    tr(
        "Turn gain back until a light, even speckle stays. Too little gain loses weak echoes first."
    ),
    tr("Set brilliance and palette to comfort."),
    tr(
        "Add only as much suppression as is needed, and see that a known "
        "weak echo survives. Take it off again when the weather changes."
    ),
    tr("Check heading marker, index error by a known range, and performance monitor; log them."),
    tr(
        "Then set scale, pulse, lines and the rest by the card of the leg, "
        "one thing at a time. Look out on a longer scale at intervals."
    ),
)
"""Order of manual set-up (handbook 11; common practice, no source)."""

WHEN_TUNED = (
    tr("A light, even speckle over open water; none is too little gain, a grey screen too much."),
    tr("Sharp near edges of land. Far edges are soft: the pulse and the beam draw them out."),
    tr(
        "Sea clutter round the ship thins outward evenly; if it is cleared "
        "to black, small echoes are gone with it."
    ),
    tr("Weak land and marks of the tune check stay when the antenna has turned a few times."),
    tr("The performance monitor reads as when it was logged last; a drop is looked into."),
)
"""What to expect of a set that is set up well (common practice, no source)."""

READINGS: dict[TuneReading, tuple[str, str]] = {
    TuneReading.AS_EXPECTED: (
        tr("As expected"),
        tr("set and position agree with the plan; log gain, time and performance monitor"),
    ),
    TuneReading.WEAK_MISSING: (
        tr("Strong seen, weak missing"),
        tr("gain, tuning or a clutter control; or sub-refraction"),
    ),
    TuneReading.STRONG_MISSING: (
        tr("Strong missing"),
        tr("the set does not work as it should, or the position is wrong: fix by other means"),
    ),
    TuneReading.ABSENT_SEEN: (
        tr("Masked one seen"),
        tr("wrong position, wrong identity, or ducting: fix by other means"),
    ),
    TuneReading.ALL_LATE: (
        tr("All late, near echoes normal"),
        tr("sub-refraction: the air, not the set"),
    ),
    TuneReading.NEAR_WEAK: (
        tr("All late, near echoes weak too"),
        tr("the set: tuning, gain, performance monitor"),
    ),
    TuneReading.ALL_EARLY: (
        tr("Many before their earliest"),
        tr("super-refraction or ducting; second-trace echoes may show"),
    ),
}
"""What a pattern of echoes means (job.md 6.2.2 and 4.2.3): its sign, then its meaning."""

BEFORE_READINGS = (
    tr(
        "Strong: a set that works is expected to show it. Weak: the first "
        "to go when something is amiss. NONE: land is expected to hide it, "
        "whatever the set."
    ),
    tr(
        "dB to spare: how far the echo is expected above the least that "
        "the radar named below detects."
    ),
    tr(
        "For a radar of the minimum standard a well-kept set shows more "
        "than is expected: then a missing echo tells much, one that is "
        "seen tells little."
    ),
)
"""What to know of the expected echoes before reading a check."""

_RUNGS = {
    Rung.STRONG: tr("expect strong"),
    Rung.MEDIUM: tr("expect medium"),
    Rung.WEAK: tr("expect weak"),
    Rung.ABSENT: tr("expect NONE"),
}
_CONTROLS = {Control.EBL_VRM: tr("EBL, VRM"), Control.INTERFERENCE: tr("interf. rejection")}


def rung_words(rung: Rung) -> str:
    """What is expected of a step."""
    return _RUNGS[rung]


def control_words(row: SetupRow) -> str:
    """A control by its trade name, an index line with its number."""
    name = _CONTROLS.get(row.control, row.control.shown)
    return f"{name} {row.number}" if row.number else name
