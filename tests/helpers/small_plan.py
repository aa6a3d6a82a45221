"""The parts of a plan file that first paints are taken from; invented."""

import json
from typing import Any


def limit(range_nm: float) -> dict[str, Any]:
    """One limit of a first paint."""
    return {"along_nm": 1.0, "range_nm": range_nm, "bearing_deg": 90.0}


def paint(object_id: str, range_nm: float | None, *, east_nm: float = 0.0) -> dict[str, Any]:
    """One object on the meridian of 30 W, 20 NM north of the equator, or east of it."""
    main = None if range_nm is None else limit(range_nm)
    second = None if range_nm is None else limit(range_nm * 1.1)
    return {
        "object_id": object_id,
        "name": f"islet {object_id}",
        "lat_deg": 20.0 / 60.0,
        "lon_deg": -30.0 + east_nm / 60.0,
        "normally_by": main,
        "normally_by_reason": "" if main else "it paints from the start",
        "by_radar": [
            {"radar": "main mast", "normally_by": main},
            {"radar": "after mast", "normally_by": second},
        ],
    }


def small_plan(*paints: dict[str, Any], with_times: bool = True) -> dict[str, Any]:
    """A plan of two legs north along 30 W, 10 NM each, an hour each from 0600; antenna 25 m."""
    legs = []
    for number in (1, 2):
        south = (number - 1) * 10.0 / 60.0
        hours = (f"0{5 + number}", f"0{6 + number}")
        legs.append(
            {
                "number": number,
                "kind": "rhumb",
                "from": {"name": "A", "lat_deg": south, "lon_deg": -30.0},
                "to": {"name": "B", "lat_deg": south + 10.0 / 60.0, "lon_deg": -30.0},
                "start_utc": f"2031-05-04T{hours[0]}:00:00Z" if with_times else None,
                "end_utc": f"2031-05-04T{hours[1]}:00:00Z" if with_times else None,
                "first_paints": list(paints) if number == 1 else [],
            }
        )
    return {
        "format": "legsheet-plan",
        "version": 1,
        "receipt": {"digest": "0123456789abcdef"},
        "passage": {"name": "invented"},
        "ship": {
            "antenna_height_above_water_m": 25.0,
            "radars": [{"name": "main mast"}, {"name": "after mast"}],
        },
        "environment": {"refraction_k": 1.333333},
        "legs": legs,
    }


SMALL_PLAN = json.dumps(small_plan(paint("A", 9.0), paint("B", None))).encode()
