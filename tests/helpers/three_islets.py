"""Files of a passage past three invented islets in mid-ocean, the first of them far off."""

from pathlib import Path

import numpy as np

from core.geodesy.position import Position
from tests.helpers.land_files import box_ring, write_geojson, write_tif

ROUTE = "WP1 00 06.0 S 030 00.0 W\nWP2 00 06.0 N 030 00.0 W\nWP3 00 12.0 N 029 54.0 W"
"""Two legs; the first runs north for 12 NM."""
ROUTE_TABLE = "name,lat,lon\nWP1,-0.1,-30.0\nWP2,0.1,-30.0\nWP3,0.2,-29.9\n"
FAR = Position(lat_deg=-0.05, lon_deg=-29.95)
"""Three miles to starboard, passed first."""
EAST = Position(lat_deg=-0.01, lon_deg=-29.983)
WEST = Position(lat_deg=0.04, lon_deg=-30.017)
"""Both a mile off."""

_CELL_DEG = 0.001
_WEST_DEG, _NORTH_DEG = -30.3, 0.3
_HALF_DEG = 0.0015
_HEIGHT_M = 40


def write_three_islets(folder: Path) -> tuple[Path, Path]:
    """Elevation and coast of the islets, each 330 m wide and 40 m high."""
    heights = np.zeros((600, 600))
    rings = []
    for middle in (FAR, EAST, WEST):
        row = round((_NORTH_DEG - middle.lat_deg - _HALF_DEG) / _CELL_DEG)
        col = round((middle.lon_deg - _HALF_DEG - _WEST_DEG) / _CELL_DEG)
        heights[row : row + 3, col : col + 3] = _HEIGHT_M
        west, north = _WEST_DEG + col * _CELL_DEG, _NORTH_DEG - row * _CELL_DEG
        side = 2.0 * _HALF_DEG
        rings.append(box_ring(west, north - side, west + side, north))
    return (
        write_tif(
            folder / "heights.tif", heights, west=_WEST_DEG, north=_NORTH_DEG, cell=_CELL_DEG
        ),
        write_geojson(folder / "coast.geojson", polygons=rings, bbox=(-30.3, -0.3, -29.7, 0.3)),
    )
