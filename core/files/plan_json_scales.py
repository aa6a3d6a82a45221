"""Range scales of one leg in the plan file."""

from typing import Any

from core.files.plan_numbers import kn, nm, nullable
from core.plan.scale_result import ScaleReach, ScaleStretch, ScanRhythm
from core.words.reasons import sentence
from core.words.scale_words import scan_sum_words


def scale_document(stretch: ScaleStretch) -> dict[str, Any]:
    """A scale over a stretch of the leg."""
    reach, scan, bottleneck = stretch.reach, stretch.scan, stretch.bottleneck
    return {
        "from_along_nm": nm(stretch.from_along_m),
        "to_along_nm": nm(stretch.to_along_m),
        "radar": stretch.radar,
        "scale_nm": nm(stretch.scale_m),
        "off_centre_fraction": stretch.off_centre_ratio,
        **nullable("off_centre_direction", stretch.off_centre_direction, "the picture is centred"),
        "pulse": stretch.pulse,
        "reason": sentence(stretch.reason),
        **nullable(
            "bottleneck",
            None if bottleneck is None else sentence(bottleneck),
            "no single item was looked for",
        ),
        **nullable("hides", None if reach is None else _hides(reach), "it was not worked out"),
        **nullable(
            "scan",
            None if scan is None else _scan(scan),
            "the other radar scans"
            if stretch.scan_reason is None
            else sentence(stretch.scan_reason),
        ),
        **nullable("land_port_nm", _miles(stretch.land_port_m), "no land in reach to port"),
        **nullable(
            "land_starboard_nm", _miles(stretch.land_starboard_m), "no land in reach to starboard"
        ),
        "off_screen": [sentence(reason) for reason in stretch.off_screen],
    }


def _miles(distance_m: float | None) -> float | None:
    return None if distance_m is None else nm(distance_m)


def _hides(reach: ScaleReach) -> dict[str, Any]:
    return {
        "beyond_ahead_nm": nm(reach.ahead_m),
        "beyond_abeam_nm": nm(reach.abeam_m),
        "beyond_astern_nm": nm(reach.astern_m),
        "closing_kn": kn(reach.closing_mps),
        "minutes": round(reach.minutes, 2),
    }


def _scan(scan: ScanRhythm) -> dict[str, Any]:
    return {
        "scale_nm": nm(scan.scale_m),
        "every_minutes": scan.every_minutes,
        "for_minutes": scan.for_minutes,
        "run_nm": nm(scan.run_m),
        "spare_nm": nm(scan.spare_m),
        "closing_kn": kn(scan.closing_mps),
        "reason": scan_sum_words(scan),
    }
