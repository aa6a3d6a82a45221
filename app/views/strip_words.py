"""What stands on the strip, thing by thing, in deck words."""

from collections.abc import Callable

from app.views.plan_rows import causes, effects, use_words
from core.base.language import tr
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, IndexObject, LegPlan, Role
from core.sheets.strip_lines import line_reference
from core.words import quantities, times
from core.words.contingency_words import abort_words
from core.words.emergence_words import Hidden, emergence_line, head_name
from core.words.kept_words import shown
from core.words.object_words import all_words
from core.words.paint_words import Sighting, limits_words, sightings
from core.words.reasons import sentence
from core.words.scale_words import why_words


def line_words(line: IndexLine) -> str:
    """An index or margin line: use, object, side, range, how well it reads, why."""
    return tr(
        "{use} line on {object}: {side} {range}, {uncertainty} as read; {sentence}{how_moved}",
        use=use_words(line.role),
        object=_named(line.object, " (", ")"),
        side=quantities.side(line.side),
        range=range_words(line),
        uncertainty=quantities.uncertainty(line.uncertainty_m),
        sentence=sentence(line.reason),
        how_moved=_how_moved(line),
    )


def _named(thing: IndexObject, before: str, after: str) -> str:
    """Letter and name of an object; the name alone where a mark has no letter."""
    return thing.id if thing.name == thing.id else f"{thing.id}{before}{thing.name}{after}"


def range_words(line: IndexLine) -> str:
    """Its cross-index range, or its limit with the sense."""
    if line.limit is not None:
        return quantities.margin(line.cross_index_range_m, line.limit, line.range_scale_m)
    return quantities.index_range(line.cross_index_range_m, line.range_scale_m)


def _how_moved(line: IndexLine) -> str:
    if line.role is Role.MARGIN:
        return tr(". Drag it sideways to another distance from the chart")
    if line.role in (Role.PRIMARY, Role.CHECK):
        return tr(". Drag it sideways to another object")
    return ""


def _line(outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    for line in leg.lines:
        if line_reference(leg, line) == f"line:{name}":
            return line_words(line)
    turn = leg.wheel_over
    return line_words(turn.line) if turn is not None and turn.line is not None else ""


def _object(outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    thing = next((thing for thing in outcome.plan.objects if thing.id == name), None)
    if thing is None:
        return ""
    words = _named(thing, ": ", "")
    lines = [line for line in leg.lines if line.object.id == name]
    for line in lines:
        words += f"; {use_words(line.role)} {quantities.side(line.side)} {range_words(line)}"
    look = next((look for look in leg.looks if look.object.id == name), None)
    if look is not None:
        use = (
            ""
            if lines
            else tr(
                "; could be indexed, place {place}: {sentence}",
                place=look.place,
                sentence=sentence(look.reason),
            )
        )
        words += f"{use}; {all_words(look)}"
    elif not lines:
        words += tr("; not used on this leg")
    return tr("{object}; confirm on the chart", object=words) if thing.confirm_on_chart else words


def _sight(outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    for one in sightings(leg):
        if one.object_id == name:
            return sighting_words(outcome, leg, one)
    return ""


def sighting_words(outcome: Outcome, leg: LegPlan, one: Sighting) -> str:
    """When and where an object is to be looked out for."""
    moment = one.moment
    where = ""
    if moment is not None:
        where = f"{quantities.radar_range(moment.range_m)}, {quantities.course(moment.bearing_deg)}"
    if one.paint is None:
        return tr(
            "{object_id}: in radar line of sight from {when} (geometry only)",
            object_id=one.object_id,
            when=where,
        )
    parts = [
        tr("is expected to paint by {when}", when=where) if where else one.paint.normally_by.reason
    ]
    parts += limits_words(one.paint, outcome.plan.timetable, leg.leg_index)
    return f"{one.object_id}: {', '.join(parts)}"


def _index_gap(_outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    gap = leg.index_gaps[int(name)]
    return tr(
        "No index line for {duration}. Instead: {substitute}",
        duration=times.duration(gap.minutes),
        substitute=gap.substitute,
    )


def _hand_over(outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    pass_on = leg.hand_overs[int(name)]
    span = times.span(
        outcome.plan.timetable, leg.leg_index, pass_on.from_along_m, pass_on.to_along_m
    )
    return tr(
        "Hand-over {from_object} to {to_object}: both usable for {duration}, {span}",
        from_object=pass_on.from_object,
        to_object=pass_on.to_object,
        duration=times.duration(pass_on.minutes),
        span=span,
    )


def _data_gap(_outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    gap = leg.gaps[int(name)]
    return tr(
        "Data gap: {causes}, {effects}", causes=causes(gap.cause), effects=effects(gap.effect)
    )


def _turn(outcome: Outcome, leg: LegPlan, _name: str, _along_m: float) -> str:
    turn = leg.wheel_over
    if turn is None:
        return ""
    when = times.when_early(outcome.plan.timetable, leg.leg_index, turn.along_m)
    return tr(
        "Wheel over {distance} before the waypoint, {time}, for {track}",
        distance=quantities.distance_before_waypoint(turn.distance_before_waypoint_m),
        time=when,
        track=quantities.track(turn.new_course_deg),
    )


def _scale(_outcome: Outcome, leg: LegPlan, _name: str, along_m: float) -> str:
    main = [stretch for stretch in leg.scales if stretch.radar == leg.scales[0].radar]
    if not main:
        return ""
    stretch = min(main, key=lambda one: abs(one.from_along_m - along_m))
    return tr(
        "Range scale {scale} from here on: {why}",
        scale=quantities.scale(stretch.scale_m),
        why=why_words(stretch),
    )


def _mark(outcome: Outcome, _leg: LegPlan, name: str, _along_m: float) -> str:
    for mark in outcome.request.marks:
        if mark.name == name:
            how = tr("fixed") if mark.is_fixed else tr("floats, so it is never indexed")
            return f"{mark.name}: {shown(mark.kind)}, {how}"
    return tr("Mark {name}", name=name)


def _emergence(_outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    for head in () if leg.waters is None else leg.waters.emergences:
        if str(head.number) == name:
            return tr(
                "Craft may come out from behind {head_name} {side}: {emergence_line}; {action}",
                head_name=head_name(head),
                side=quantities.side(head.side),
                emergence_line=emergence_line(head),
                action=Hidden.ACTION,
            )
    return ""


def _abort(outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    for one in outcome.contingencies:
        if str(one.at.number) == name:
            return tr("Last place to abort: {abort}", abort=abort_words(one, leg.distance_m))
    return ""


def _waypoint(outcome: Outcome, _leg: LegPlan, name: str, _along_m: float) -> str:
    return tr("Waypoint {name}", name=outcome.plan.passage.waypoints[int(name)].name)


def _coast(outcome: Outcome, leg: LegPlan, name: str, _along_m: float) -> str:
    has_paint = outcome.coverage.legs[leg.leg_index].painted_edge is not None
    if name == "in_sight":
        return (
            tr(
                "Painted edge: this shore is expected to paint from somewhere on "
                "the leg; it stands where it paints, not always where the chart "
                "has the coast"
            )
            if has_paint
            else tr("Coast in radar line of sight from somewhere on the leg (geometry only)")
        )
    if name == "land_behind":
        return tr("Coast hidden; the land behind it is in sight, so its echo lies inland")
    if name == "hidden":
        return (
            tr("Coast not expected to paint from this leg")
            if has_paint
            else tr("Coast not in radar line of sight from this leg")
        )
    return tr("Coast of which nothing is calculated: beyond reach, or behind unknown heights")


_ABOUT: dict[str, Callable[[Outcome, LegPlan, str, float], str]] = {
    "line": _line,
    "object": _object,
    "sight": _sight,
    "index-gap": _index_gap,
    "hand-over": _hand_over,
    "data-gap": _data_gap,
    "wheel-over": _turn,
    "turn": _turn,
    "scale": _scale,
    "mark": _mark,
    "emergence": _emergence,
    "abort": _abort,
    "waypoint": _waypoint,
    "coast": _coast,
}


def about(outcome: Outcome, leg_index: int, reference: str, along_m: float) -> str:
    """Words of a thing on the strip by its reference; empty for what is only a line of the page.

    ``along_m`` is where it was met.
    """
    kind, _, name = reference.partition(":")
    tell = _ABOUT.get(kind)
    return "" if tell is None else tell(outcome, outcome.plan.legs[leg_index], name, along_m)
