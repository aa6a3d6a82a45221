"""Writes marks and danger limits as the tables their readers read."""

import csv
import io

from core.base.units import nm_from_m
from core.plan.plan_result import DangerLimit, Mark

_MARKS = ("name", "lat", "lon", "kind", "fixed", "height_m", "on_chart")
_LIMITS = ("object", "leg", "not_less_than_nm", "not_more_than_nm", "note")


def _text(header: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    if not rows:
        return ""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(rows)
    return out.getvalue()


def marks_text(marks: tuple[Mark, ...]) -> str:
    """Marks as ``marks_file`` reads them; empty without any."""
    return _text(
        _MARKS,
        [
            (
                mark.name,
                f"{mark.position.lat_deg:.9f}",
                f"{mark.position.lon_deg:.9f}",
                mark.kind,
                "yes" if mark.is_fixed else "no",
                f"{mark.height_above_water_m:.6g}",
                "yes" if mark.is_on_chart else "no",
            )
            for mark in marks
        ],
    )


def limits_text(limits: tuple[DangerLimit, ...]) -> str:
    """Danger limits as ``limits_file`` reads them; empty without any."""
    return _text(
        _LIMITS,
        [
            (
                limit.object_id,
                "" if limit.leg_number is None else str(limit.leg_number),
                _miles(limit.least_m),
                _miles(limit.most_m),
                limit.note,
            )
            for limit in limits
        ],
    )


def _miles(distance_m: float | None) -> str:
    return "" if distance_m is None else f"{nm_from_m(distance_m):.7g}"
