"""Reason codes of the plan into sentences; the codes and their values stand in reason_codes."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from core.base.language import tr
from core.plan import reason_codes as codes
from core.plan.plan_result import Limit, Reason
from core.words import quantities
from core.words.check_templates import CHECK_TEMPLATES
from core.words.kept_words import shown
from core.words.setup_words import SETUP_TEMPLATES

_Values = Mapping[str, float | str]
_UNITS = ("_mps", "_deg", "_mm_h", "_m", "_db", "_minutes", "_ratio")

_KINDS = {
    tr("islet"): tr("islet"),
    tr("rock"): tr("rock"),
    tr("headland"): tr("headland"),
    "steep_shore": tr("steep shore"),
    "peak": tr("summit"),
    tr("structure"): tr("structure"),
    tr("mark"): tr("mark"),
}

TEMPLATES: dict[str, str] = {
    codes.FLOATING: tr("floats, so it is never indexed; it may help to recognise the place"),
    codes.NO_WINDOW: tr("your choice, but not usable on this leg: {cause}"),
    codes.MARGIN: (
        tr(
            "your danger limit of {limit}, which must hold: read error {read}, "
            "hull towards it {hull}, {response} run before she answers"
        )
    ),
    codes.TURN_BY_LINE: (
        tr(
            "line parallel to the new course; tangent {tangent} and response "
            "{response} before the waypoint"
        )
    ),
    codes.TURN_BY_RANGE_BEARING: (
        tr(
            "by range and bearing: at an alteration of {alteration} a parallel "
            "line is met too slowly"
        )
    ),
    codes.TURN_IN_STEPS: (
        tr("large alteration of {alteration}: turn in two steps, first to {half_course}, then on")
    ),
    codes.SCALE_FORCED_BY_LOOK_OUT: (
        tr("look-out distance {distance} ({closing} closing for {decision})")
    ),
    codes.SCALE_FORCED_BY_OBJECT: tr("holds {object} out to {range}"),
    codes.SCALE_FORCED_BY_WHEEL_OVER: tr("holds wheel-over mark {object} out to {range}"),
    codes.SCALE_FORCED_BY_MARGIN: tr("holds margin object {object} out to {range}"),
    codes.SCALE_LONGEST: tr(
        "longest scale there is; the look-out distance {distance} is beyond it"
    ),
    codes.SCALE_FORCED_BY_NEXT_LEG: (
        tr("holds {object}, first object of the next leg, out to {range} at the wheel-over")
    ),
    codes.SCALE_NOT_HELD: tr("{object} is off the screen at {range}"),
    codes.SCALE_BOTTLENECK: tr("without {item} the {without_scale} scale would do"),
    codes.SCALE_NEEDED_BY_BOTH: tr("{item} and {other} each need it"),
    codes.SCALE_NEEDED_BY_ONE: tr("{item} needs it; no shorter scale holds the rest either"),
    codes.SCALE_CARRIED_ON: (
        tr(
            "the {needed_scale} scale would hold all of it; kept, so that the "
            "scale changes less often"
        )
    ),
    codes.SCALE_SECOND_FOR_LAND: tr("holds the nearest land of both sides out to {range}"),
    codes.SCALE_SECOND_FOR_OBJECT: tr(
        "holds {object} out to {range}, which the main radar does not"
    ),
    codes.SCAN_ON_LONGEST: tr("no longer scale to scan on"),
    codes.SCAN_TOO_OFTEN: (
        tr("no long scan: on the longer scales it would have to come more often than every 2 min")
    ),
    codes.FIX_NOTHING: tr("no fixed object with an edge to range is expected to paint here"),
    codes.FIX_ONE_ONLY: tr("{object} alone can be ranged here"),
    codes.FIX_CUT_TOO_FINE: tr("ranges cut too finely here, at {cut} at best"),
    codes.SCALE_SECOND_RADAR: tr("longer scan for traffic beside {main_scale} on the main radar"),
    codes.HEIGHTS_ASSUMED: tr("its height is an assumption"),
    codes.HEIGHT_WITHIN_ERROR: tr(
        "no higher than heights err ({height_error}), it may not stand out"
    ),
    codes.HEIGHT_WITHIN_TIDE: tr(
        "no higher than height error and high water together ({height}), it may lie under water"
    ),
    codes.HEIGHT_COULD_HIDE: tr("{height_error} lower it would be hidden in its window"),
    codes.HEIGHTS_MISSING: tr("heights beside it are missing"),
    codes.FEW_CELLS: tr("less than three cells of {cell_side} across"),
    codes.COAST_APART: tr("the elevation shows no land within {coast_apart} of its coast"),
    codes.NO_COAST_DATA: tr("its coast is taken from the elevation"),
    codes.WEAK_ECHO: tr("its echo is only {least} over the threshold somewhere in its window"),
    codes.NOT_SEEN_ON_CHART: tr("not noted as seen on the chart"),
    **CHECK_TEMPLATES,
    **SETUP_TEMPLATES,
}
"""Sentence of each code; names in braces are values of the reason without their unit."""


def _words(name: str, value: float | str) -> str:
    """A value in words, by the unit at the end of its name."""
    if isinstance(value, str):
        return shown(value) if name in ("direction", "pulse", "role", "side") else value
    if name in ("tangent_m", "response_m", "limit_m", "cross_m", "read_m", "hull_m"):
        return quantities.distance(value, 2)
    if name.endswith("scale_m"):
        return quantities.scale(value)
    if name == "coast_apart_m":
        return quantities.rough_reach(value)
    if name in ("height_error_m", "cell_side_m"):
        return quantities.height(value)
    if name == "mark_range_m":
        return quantities.radar_range(value)
    if name in ("mark_bearing_deg", "half_course_deg"):
        return quantities.course(value)
    if name.endswith(("height_m", "low_m", "_moves_m", "slides_m", "extent_m", "tide_m")):
        return quantities.height(value)
    if name.endswith("_m"):
        return quantities.distance(value)
    if name.endswith("_deg"):
        return f"{abs(value):.0f}°"
    if name.endswith("_mps"):
        return quantities.speed(value)
    if name.endswith("_mm_h"):
        return tr("{rain_mm_h:g} mm/h", rain_mm_h=value)
    if name.endswith("_db"):
        return f"{value:.0f} dB"
    if name.endswith("_minutes"):
        return f"{value:.0f} min"
    if name.endswith("_ratio"):
        return quantities.percent(value)
    return f"{value:g}"


def _bare(name: str) -> str:
    for unit in _UNITS:
        if name.endswith(unit):
            return name.removesuffix(unit)
    return name


def _number(values: _Values, name: str) -> float:
    value = values[name]
    return value if isinstance(value, float | int) else 0.0


def _tidal_range(values: _Values) -> str:
    """The tidal range an edge is judged by, with a word where it is assumed."""
    assumed = " assumed" if _number(values, "tide_assumed") else ""
    return tr(
        "range {tidal_range}{whether_assumed}",
        tidal_range=quantities.fine_height(_number(values, "tide_m")),
        whether_assumed=assumed,
    )


def _paints_inside(values: _Values) -> str:
    inside = quantities.edge_movement(_number(values, "paints_inside_m"))
    return tr("its edge paints {inside} inside the charted coast", inside=inside)


_TERMS: tuple[tuple[str, Callable[[_Values], str]], ...] = (
    ("chosen", lambda _v: tr("chosen by the officer")),
    (
        "window_ratio",
        lambda v: (
            tr("usable all along")
            if _number(v, "window_ratio") > 0.98
            else tr(
                "usable {percent} of the leg",
                percent=quantities.percent(_number(v, "window_ratio")),
            )
        ),
    ),
    ("abeam_m", lambda _v: tr("comes abeam")),
    ("sharp", lambda _v: tr("sharp edge")),
    ("steep_to", lambda _v: tr("steep-to")),
    ("paints_inside_m", _paints_inside),
    (
        "paint_spread_m",
        lambda v: tr(
            "paints {distance} farther off within its window",
            distance=quantities.edge_movement(_number(v, "paint_spread_m")),
        ),
    ),
    (
        "slope",
        lambda v: "" if "steep_to" in v else tr("slope {number:.2f}", number=_number(v, "slope")),
    ),
    ("shore_unknown", lambda _v: tr("slope of its shore not known")),
    (
        "isolated_m",
        lambda v: tr(
            "{distance} clear of others", distance=quantities.distance(_number(v, "isolated_m"), 2)
        ),
    ),
    (
        "crowded_m",
        lambda v: tr(
            "other land only {distance} from it",
            distance=quantities.distance(_number(v, "crowded_m"), 2),
        ),
    ),
    ("legs", lambda v: tr("serves {number:.0f} legs", number=_number(v, "legs"))),
    ("on_chart", lambda _v: tr("seen on the chart")),
    ("low_m", lambda v: tr("low, {height}", height=quantities.height(_number(v, "low_m")))),
    (
        "tide_moves_m",
        lambda v: tr(
            "tide moves its edge {distance} ({tidal_range})",
            distance=quantities.edge_movement(_number(v, "tide_moves_m")),
            tidal_range=_tidal_range(v),
        ),
    ),
    (
        "low_shore_m",
        lambda v: tr(
            "low shore, the tide moves its edge {distance} ({tidal_range})",
            distance=quantities.least_edge_movement(_number(v, "low_shore_m")),
            tidal_range=_tidal_range(v),
        ),
    ),
    (
        "shore_blank_m",
        lambda v: tr(
            "the elevation shows no land within {distance} of this coast",
            distance=quantities.rough_reach(_number(v, "shore_blank_m")),
        ),
    ),
    (
        "slides_m",
        lambda v: tr(
            "tangent slides {height} as you pass", height=quantities.height(_number(v, "slides_m"))
        ),
    ),
    ("straight", lambda _v: tr("long straight coast, no point to hold")),
    (
        "masked_ratio",
        lambda v: tr(
            "masked by nearer land over {percent}",
            percent=quantities.percent(_number(v, "masked_ratio")),
        ),
    ),
    (
        "blind_m",
        lambda v: tr(
            "in a blind sector over {distance}",
            distance=quantities.distance(_number(v, "blind_m"), 2),
        ),
    ),
    (
        "near_m",
        lambda v: tr(
            "passes only {distance} off", distance=quantities.distance(_number(v, "near_m"), 2)
        ),
    ),
    ("in_corridor", lambda _v: tr("lies inside the corridor")),
)


def _index_object(values: _Values) -> str:
    """Why an object is or is not good to index on: its terms, good ones first."""
    kind = _KINDS.get(str(values.get("kind", "")), tr("object"))
    terms = [words for name, term in _TERMS if name in values if (words := term(values))]
    return f"{kind}: {', '.join(terms)}" if terms else kind


def _wheel_over(values: _Values) -> str:
    reach = _words("range_m", values["range_m"])
    text = (
        tr("near the wheel-over ({range}), inside of the turn", range=reach)
        if _number(values, "inside")
        else tr("near the wheel-over ({range}), outside of the turn", range=reach)
    )
    if values.get("other_side"):
        text += tr("; on the other side of this line than on the new leg")
    if "paints_inside_m" in values:
        text += f"; {_paints_inside(values)}"
    return text


def _lay_line(values: _Values) -> dict[str, str]:
    """An index line as it is laid: side in capitals, range by its scale, margin with its sense."""
    range_m, scale_m = (_number(values, k) for k in ("cross_index_range_m", "range_scale_m"))
    words = {
        "object": str(values["object"]),
        "side": shown(str(values["side"])).upper(),
        "limit": "",
        "index": quantities.index_range(range_m, scale_m),
        "line": quantities.line_directions(_number(values, "line_bearing_deg")),
    }
    if "limit" in values:
        words["index"] = quantities.margin(range_m, Limit(values["limit"]), scale_m)
    return words


def _limits(values: _Values) -> str:
    """Between which margins an echo was looked for."""
    least = _words("least_db", values["least_db"])
    if "most_db" not in values:
        return tr("more than {least}", least=least)
    return tr(
        "{least} to {most}",
        least=least.removesuffix(" dB"),
        most=_words("most_db", values["most_db"]),
    )


def _made_of_several(values: _Values) -> dict[str, str]:
    """Words of a sentence that more than one value goes into, or none."""
    words = {"cell": ""}
    if "depth_m" in values:
        words["cell"] = tr(" ({height} deep)", height=quantities.height(_number(values, "depth_m")))
    if "least_db" in values:
        words["limits"] = _limits(values)
    if "cross_index_range_m" in values:
        words |= _lay_line(values)
    return words


def beside_name(reason: Reason, name: str) -> str:
    """A reason beside the name of its object: what kind of thing it is stands there already."""
    words = sentence(reason)
    kind, _colon, terms = words.partition(": ")
    return terms if terms and name.startswith(kind) else words


def beside_choice(reason: Reason) -> str:
    """A reason where it is said beside it that the officer chose the object."""
    values = tuple(value for value in reason.values if value[0] != "chosen")
    return sentence(replace(reason, values=values))


def sentence(reason: Reason) -> str:
    """A reason in words; a code without a sentence of its own is spelled out with its values."""
    values = dict(reason.values)
    if reason.code == codes.INDEX_OBJECT:
        return _index_object(values)
    if reason.code == codes.WHEEL_OVER_LINE:
        return _wheel_over(values)
    words = {_bare(name): _words(name, value) for name, value in values.items()}
    template = TEMPLATES.get(reason.code)
    if template is not None:
        try:
            return template.format(**words | _made_of_several(values))
        except KeyError:
            pass
    plain = reason.code.replace("-", " ").replace("_", " ")
    if not words:
        return plain
    numbers = ", ".join(f"{name.replace('_', ' ')} {value}" for name, value in words.items())
    return f"{plain} ({numbers})"
