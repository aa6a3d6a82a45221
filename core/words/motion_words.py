"""Stream, leeway, heading and speeds in words."""

import math

from core.base.language import tr
from core.base.units import kn_from_mps, mps_from_kn
from core.passage.motion import LegMotion
from core.passage.off_track import noticed_s, off_track_s
from core.passage.passage import Side
from core.passage.stream import Leeway, Stream
from core.plan.plan_result import LegPlan, Role
from core.words import quantities

_LEAST_ACROSS_MPS = mps_from_kn(0.05)


def stream_words(stream: Stream) -> str:
    """A stream as it is given: ``sets 045° T, 1.5 kn``."""
    return tr(
        "sets {course}, {speed_kn:.1f} kn",
        course=quantities.course(stream.set_deg),
        speed_kn=kn_from_mps(stream.drift_mps),
    )


def leeway_words(leeway: Leeway) -> str:
    """Leeway as it is given: ``up to 4° either way``, ``up to 4° to starboard``."""
    port, starboard = leeway.to_port_deg, leeway.to_starboard_deg
    if port == starboard:
        return tr("up to {port:g}° either way", port=port) if port > 0.0 else tr("none")
    if port == 0.0:
        return tr("up to {starboard:g}° to starboard", starboard=starboard)
    if starboard == 0.0:
        return tr("up to {port:g}° to port", port=port)
    return tr(
        "up to {port:g}° to port, {starboard:g}° to starboard", port=port, starboard=starboard
    )


def given_words(motion: LegMotion) -> str:
    """All that is given for a leg: ``stream sets 045° T, 1.5 kn; leeway up to 4° either way``."""
    parts = []
    if motion.given.stream is not None:
        parts.append(tr("stream {stream}", stream=stream_words(motion.given.stream)))
    if motion.given.leeway is not None:
        parts.append(tr("leeway {leeway}", leeway=leeway_words(motion.given.leeway)))
    return "; ".join(parts)


def steer_words(motion: LegMotion, course_deg: float) -> str:
    """The heading to steer, nearest degree: ``steer 052° T``."""
    return tr("steer {course}", course=quantities.course(motion.heading_deg(course_deg)))


def headings_words(motion: LegMotion, course_deg: float) -> str:
    """The headings that leeway leaves possible, widened to degrees; empty where it is one."""
    least, most = motion.least_heading_off_deg, motion.most_heading_off_deg
    if most - least < 0.05:
        return ""
    low = math.floor(course_deg + least + 1e-9) % 360
    high = math.ceil(course_deg + most - 1e-9) % 360
    return tr("{low:03d}° to {high:03d}° T", low=low, high=high)


def speeds_words(motion: LegMotion) -> str:
    """Both speeds where a stream parts them: ``12.0 kn, 13.4 kn over ground``."""
    if motion.given.stream is None:
        return quantities.speed(motion.ground_speed_mps)
    return tr(
        "{water_speed}, {ground_speed} over ground",
        water_speed=quantities.speed(motion.water_speed_mps),
        ground_speed=quantities.speed(motion.ground_speed_mps),
    )


def motion_lines(motion: LegMotion | None, course_deg: float) -> tuple[str, ...]:
    """One line for lists of legs; none where neither stream nor leeway is given."""
    if motion is None:
        return ()
    line = steer_words(motion, course_deg)
    between = headings_words(motion, course_deg)
    if between:
        line += f" ({between})"
    if motion.given.stream is not None:
        line += tr("   {speed} through water", speed=quantities.speed(motion.water_speed_mps))
    return (line,)


def unallowed_words(plan: LegPlan, motion: LegMotion) -> str:
    """What stream and wind do to a ship that does not allow for them; empty for next to nothing.

    ``not allowed for, the stream sets her 1.2 kn to STARBOARD: read after 3.0 min, out of the
    corridor after 12.5 min``. Read: off by what the primary lines are good for (job.md 2.9.9).
    """
    across_mps = motion.set_across_mps
    parts = []
    if abs(across_mps) >= _LEAST_ACROSS_MPS:
        laid = [line.uncertainty_m for line in plan.lines if line.role is Role.PRIMARY]
        effects = _out_after(plan, across_mps)
        if laid:
            minutes = noticed_s(across_mps=across_mps, threshold_m=max(laid)) / 60.0
            effects = tr(
                "read after {minutes:.1f} min, {effects}", minutes=minutes, effects=effects
            )
        parts.append(
            tr(
                "not allowed for, the stream sets her {set_across}: {effects}",
                set_across=_across(across_mps),
                effects=effects,
            )
        )
    leeway = motion.given.leeway
    if leeway is not None and min(leeway.to_port_deg, leeway.to_starboard_deg) > 0.0:
        off_deg = max(leeway.to_port_deg, leeway.to_starboard_deg)
        seconds = off_track_s(
            angle_deg=off_deg,
            speed_mps=motion.water_speed_mps,
            off_m=min(plan.corridor_port_m, plan.corridor_starboard_m),
        )
        parts.append(
            tr(
                "{off_deg:g}° of leeway: out of the corridor after {time}",
                off_deg=off_deg,
                time=_minutes_down(seconds),
            )
        )
    return "; ".join(parts)


def brief_unallowed_words(plan: LegPlan, motion: LegMotion) -> str:
    """The same of the stream alone, for the sheet."""
    across_mps = motion.set_across_mps
    if abs(across_mps) < _LEAST_ACROSS_MPS:
        return ""
    return tr(
        "if not allowed for, {set_across}: {out_of_corridor}",
        set_across=_across(across_mps),
        out_of_corridor=_out_after(plan, across_mps),
    )


def _across(across_mps: float) -> str:
    side = quantities.side(Side.STARBOARD if across_mps > 0.0 else Side.PORT)
    return tr("{speed_kn:.1f} kn to {side}", speed_kn=kn_from_mps(abs(across_mps)), side=side)


def _out_after(plan: LegPlan, across_mps: float) -> str:
    corridor_m = plan.corridor_starboard_m if across_mps > 0.0 else plan.corridor_port_m
    seconds = noticed_s(across_mps=across_mps, threshold_m=corridor_m)
    return tr("out of the corridor after {time}", time=_minutes_down(seconds))


def _minutes_down(seconds: float) -> str:
    """A time in which to act, rounded down to 0.1 min."""
    return f"{math.floor(seconds / 6.0) / 10.0:.1f} min"
