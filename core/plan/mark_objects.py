"""The officer's marks as objects to index on."""

import numpy as np

from core.plan.feature import Feature
from core.plan.plan_result import Mark, ObjectKind
from core.plan.shore import metres_from

_REACH_M = 5_000.0
_STRUCTURES = ("pier", "tower", "breakwater", "bridge", "jetty", "mole", "chimney", "lighthouse")


def mark_features(marks: tuple[Mark, ...]) -> tuple[Feature, ...]:
    """One feature a mark, in the officer's order."""
    return tuple(_feature(mark, marks) for mark in marks)


def _feature(mark: Mark, marks: tuple[Mark, ...]) -> Feature:
    is_structure = any(word in mark.kind.lower() for word in _STRUCTURES)
    return Feature(
        key=f"mark {mark.name}",
        kind=ObjectKind.STRUCTURE if is_structure else ObjectKind.MARK,
        lat_deg=np.array([mark.position.lat_deg]),
        lon_deg=np.array([mark.position.lon_deg]),
        point_index=np.zeros(0, dtype=np.int64),
        height_m=mark.height_above_water_m,
        rise=None,
        extent_m=0.0,
        rounding_m=0.0,
        isolation_m=_isolation_m(mark, marks),
        mark=mark,
    )


def _isolation_m(mark: Mark, marks: tuple[Mark, ...]) -> float:
    """Distance to the next other mark, m, up to 5 km; a mark may well stand on the shore."""
    others = [other.position for other in marks if other is not mark]
    east, north = metres_from(
        np.array([p.lat_deg for p in others], dtype=np.float64),
        np.array([p.lon_deg for p in others], dtype=np.float64),
        from_lat_deg=mark.position.lat_deg,
        from_lon_deg=mark.position.lon_deg,
    )
    return float(np.min(np.hypot(east, north), initial=_REACH_M))
