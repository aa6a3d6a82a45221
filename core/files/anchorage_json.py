"""The officer's word that a passage ends at anchor, as the project keeps it."""

import math
from typing import Any

from core.base.units import kn_from_mps, m_from_nm, mps_from_kn, nm_from_m
from core.plan.anchoring_result import Anchorage, SpeedStep

_LONGEST_NAME = 200


def anchorage_row(anchorage: Anchorage) -> dict[str, Any]:
    """An anchorage as a JSON table."""
    return {
        "waypoint": anchorage.waypoint,
        "cable_m": anchorage.cable_m,
        "hawse_m": anchorage.hawse_m,
        "speeds": [
            [round(nm_from_m(step.from_to_go_m), 6), round(kn_from_mps(step.speed_mps), 6)]
            for step in anchorage.speeds
        ],
    }


def anchorage_of(row: object) -> Anchorage:
    """An anchorage from a JSON table.

    Raises
    ------
    ValueError
        It is none; the message is the sentence for the officer.
    """
    if not isinstance(row, dict) or not isinstance(row.get("speeds", []), list):
        raise ValueError("anchorage is not a table with speeds")  # noqa: TRY004 - the caller names the file
    steps = []
    for step in row.get("speeds", []):
        if not isinstance(step, list) or len(step) != 2:
            raise ValueError("a speed of the anchorage is not a pair of distance and speed")
        steps.append((_number(step[0], "distance to go"), _number(step[1], "speed")))
    cable, hawse, waypoint = row.get("cable_m"), row.get("hawse_m"), row.get("waypoint", "")
    if not isinstance(waypoint, str):
        raise ValueError("the waypoint of the anchorage is not text")  # noqa: TRY004 - as above
    return anchorage_with(
        waypoint=waypoint,
        cable_m=None if cable is None else _number(cable, "length of cable"),
        hawse_m=None if hawse is None else _number(hawse, "distance to the hawse"),
        speeds_nm_kn=tuple(steps),
    )


def anchorage_with(
    *,
    waypoint: str = "",
    cable_m: float | None,
    hawse_m: float | None,
    speeds_nm_kn: tuple[tuple[float, float], ...],
) -> Anchorage:
    """An anchorage of checked values.

    Raises
    ------
    ValueError
        A value no officer can mean, in a sentence.
    """
    name = " ".join(waypoint.split())
    if len(name) > _LONGEST_NAME or not name.isprintable():
        raise ValueError("the waypoint of the anchorage is longer than any name of one")
    if cable_m is not None and not 1.0 <= cable_m <= 1000.0:
        raise ValueError(f"the length of cable {cable_m:g} m is not between 1 and 1000 m")
    if hawse_m is not None and not 0.0 <= hawse_m <= 500.0:
        raise ValueError(f"the distance to the hawse {hawse_m:g} m is not between 0 and 500 m")
    for to_go_nm, speed_kn in speeds_nm_kn:
        if not 0.0 < to_go_nm <= 50.0 or not 0.1 <= speed_kn <= 50.0:
            raise ValueError(
                f"{speed_kn:g} kn from {to_go_nm:g} NM to go is no step of an approach"
            )
    distances = [to_go for to_go, _speed in speeds_nm_kn]
    if distances != sorted(distances, reverse=True) or len(set(distances)) < len(distances):
        raise ValueError("the speeds of the approach do not come nearer step by step")
    return Anchorage(
        waypoint=name,
        cable_m=cable_m,
        hawse_m=hawse_m,
        speeds=tuple(
            SpeedStep(from_to_go_m=m_from_nm(nm), speed_mps=mps_from_kn(kn))
            for nm, kn in speeds_nm_kn
        ),
    )


def speeds_in_text(text: str) -> tuple[tuple[float, float], ...]:
    """Steps typed as ``3:8 1.5:6``: distance to go in NM, speed in kn.

    Raises
    ------
    ValueError
        They cannot be read, in a sentence.
    """
    steps = []
    for word in text.split():
        parts = word.replace(",", ".").split(":")
        try:
            to_go, speed = (float(part) for part in parts)
        except ValueError as exc:
            raise ValueError(f"«{word}» is no step such as 1.5:6, 6 kn from 1.5 NM to go") from exc
        steps.append((_number(to_go, "distance to go"), _number(speed, "speed")))
    return tuple(steps)


def _number(value: object, what: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise ValueError(f"the {what} of the anchorage is not a number")
    return float(value)
