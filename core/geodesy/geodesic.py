"""WGS-84 geodesics on arrays; the only module that knows pyproj's order of arguments."""

import numpy as np
from pyproj import Geod

from core.base.angles import wrap_360_array_deg
from core.base.arrays import FloatArray

_GEOD = Geod(ellps="WGS84")


def _together(*values: FloatArray | float) -> list[FloatArray]:
    arrays = np.broadcast_arrays(*[np.asarray(v, dtype=np.float64) for v in values])
    return [np.array(a, dtype=np.float64, order="C") for a in arrays]


def inverse(
    *,
    from_lat_deg: FloatArray | float,
    from_lon_deg: FloatArray | float,
    to_lat_deg: FloatArray | float,
    to_lon_deg: FloatArray | float,
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Shortest lines between points.

    Parameters
    ----------
    from_lat_deg, from_lon_deg, to_lat_deg, to_lon_deg : arrays or floats, broadcast together
        Positions, deg.

    Returns
    -------
    distance_m, initial_bearing_deg, final_bearing_deg : arrays of the broadcast shape
        Length in m; courses at start and at end, deg true in [0, 360).

    References
    ----------
    Karney, Algorithms for geodesics (2013), as in PROJ; checked in tests/outside.
    """
    lat1, lon1, lat2, lon2 = _together(from_lat_deg, from_lon_deg, to_lat_deg, to_lon_deg)
    forward, back, distance = _GEOD.inv(lon1, lat1, lon2, lat2)
    return (
        np.asarray(distance, dtype=np.float64),
        wrap_360_array_deg(np.asarray(forward, dtype=np.float64)),
        wrap_360_array_deg(np.asarray(back, dtype=np.float64) + 180.0),
    )


def direct(
    *,
    lat_deg: FloatArray | float,
    lon_deg: FloatArray | float,
    bearing_deg: FloatArray | float,
    distance_m: FloatArray | float,
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Points at a distance along geodesics.

    Returns
    -------
    lat_deg, lon_deg, final_bearing_deg : arrays of the broadcast shape
        Ends in deg (longitude in [-180, 180]) and the courses there, deg in [0, 360).
    """
    lat, lon, bearing, distance = _together(lat_deg, lon_deg, bearing_deg, distance_m)
    lon2, lat2, back = _GEOD.fwd(lon, lat, bearing, distance)
    return (
        np.asarray(lat2, dtype=np.float64),
        np.asarray(lon2, dtype=np.float64),
        wrap_360_array_deg(np.asarray(back, dtype=np.float64) + 180.0),
    )
