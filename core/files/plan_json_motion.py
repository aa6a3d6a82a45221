"""Stream, leeway, heading and speeds of a leg in the plan file."""

from typing import Any

from core.files.plan_numbers import deg, kn, nullable
from core.plan.plan_result import LegPlan

_NOT_GIVEN = "no set or leeway was given"


def motion_document(leg: LegPlan) -> dict[str, Any]:
    """Speed, heading to steer and speed over the ground, and what they come from."""
    motion = leg.motion
    if motion is None:
        return {
            "speed_kn": kn(leg.speed_mps),
            **nullable("heading_deg", None, _NOT_GIVEN),
            **nullable("ground_speed_kn", None, _NOT_GIVEN),
            **nullable("stream", None, "no set was given"),
            **nullable("leeway", None, "no leeway was given"),
        }
    stream, leeway = motion.given.stream, motion.given.leeway
    return {
        "speed_kn": kn(motion.water_speed_mps),
        **nullable("heading_deg", deg(motion.heading_deg(leg.course_deg)), ""),
        **nullable("ground_speed_kn", kn(motion.ground_speed_mps), ""),
        **nullable(
            "stream",
            None
            if stream is None
            else {"set_deg": deg(stream.set_deg), "drift_kn": kn(stream.drift_mps)},
            "no set was given",
        ),
        **nullable(
            "leeway",
            None
            if leeway is None
            else {
                "to_port_deg": round(leeway.to_port_deg, 4),
                "to_starboard_deg": round(leeway.to_starboard_deg, 4),
                "heading_from_deg": deg(leg.course_deg + motion.least_heading_off_deg),
                "heading_to_deg": deg(leg.course_deg + motion.most_heading_off_deg),
            },
            "no leeway was given",
        ),
    }
