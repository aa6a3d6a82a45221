"""Writes a passage as a table that ``csv_route`` reads back as the same passage."""

import csv
import io
from collections.abc import Callable
from datetime import UTC, datetime

from core.base.units import kn_from_mps, nm_from_m
from core.geodesy.leg_line import LegKind
from core.passage.passage import Leg, Passage

_HEADER = (
    "name", "lat", "lon", "turn radius (nm)", "xtd port (nm)", "xtd starboard (nm)", "speed (kn)",
    "leg type", "eta", "etd", "note",
)  # fmt: skip
_KINDS = {LegKind.RHUMB: "rhumb line", LegKind.GEODESIC: "great circle"}


def csv_route_text(passage: Passage) -> str:
    """One row a waypoint; values of a leg stand in the row of the waypoint it leads to.

    Positions are decimal degrees to a tenth of a millimetre, lengths to a millimetre.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(_HEADER)
    for index, waypoint in enumerate(passage.waypoints):
        leg = passage.legs[index - 1] if index else None
        writer.writerow(
            (
                waypoint.name,
                f"{waypoint.position.lat_deg:.9f}",
                f"{waypoint.position.lon_deg:.9f}",
                _number(waypoint.turn_radius_m, nm_from_m),
                *_leg_cells(leg),
                _time(waypoint.eta_utc),
                _time(waypoint.etd_utc),
                leg.note if leg is not None else "",
            )
        )
    return out.getvalue()


def _leg_cells(leg: Leg | None) -> tuple[str, ...]:
    if leg is None:
        return ("", "", "", "")
    return (
        _number(leg.corridor_port_m, nm_from_m),
        _number(leg.corridor_starboard_m, nm_from_m),
        _number(leg.speed_mps, kn_from_mps),
        _KINDS[leg.kind],
    )


def _number(value: float | None, unit: Callable[[float], float]) -> str:
    return "" if value is None else f"{unit(value):.7g}"


def _time(value: datetime | None) -> str:
    return "" if value is None else value.astimezone(UTC).isoformat().replace("+00:00", "Z")
