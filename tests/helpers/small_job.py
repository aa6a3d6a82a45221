"""A whole job of seconds: a small invented archipelago anywhere on Earth, with its files."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from core.base.progress import Quiet
from core.base.units import m_from_nm
from core.files.plan_json import plan_document
from core.files.project import Options, Project
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.plan.outcome import Outcome
from tests.helpers.land_files import Ring, write_geojson, write_tif

CELL_DEG = 1.0 / 1200.0
"""3 arc-seconds."""
_SIDE_DEG = 0.4
_CELLS = round(_SIDE_DEG / CELL_DEG)

ISLETS = ((0.021, -0.080, 60.0), (-0.018, -0.020, 40.0), (0.024, 0.045, 90.0), (-0.06, 0.09, 30.0))
"""East and north of the middle, deg, and height, m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Files of an archipelago round a middle."""

    folder: Path
    lat_deg: float
    lon_deg: float
    is_mirrored: bool = False
    """North and south exchanged."""

    def heights(self) -> np.ndarray:
        """Heights from north to south, m; islets of three cells a side."""
        heights = np.zeros((_CELLS, _CELLS), dtype=np.int16)
        for east, north, height in ISLETS:
            up = -north if self.is_mirrored else north
            row = round((_SIDE_DEG / 2.0 - up) / CELL_DEG)
            col = round((_SIDE_DEG / 2.0 + east) / CELL_DEG)
            if self.is_mirrored:
                heights[row - 1 : row + 2, col : col + 3] = height
            else:
                heights[row - 1 : row + 2, col : col + 3] = height
        return heights

    def rings(self) -> Iterator[Ring]:
        """Coast of each islet, on the edges of its cells, longitudes not wrapped."""
        heights = self.heights()
        north = self.lat_deg + _SIDE_DEG / 2.0
        west = self.lon_deg - _SIDE_DEG / 2.0
        for height in sorted({int(h) for h in np.unique(heights)} - {0}):
            rows, cols = np.nonzero(heights == height)
            left, right = west + cols.min() * CELL_DEG, west + (cols.max() + 1) * CELL_DEG
            top, bottom = north - rows.min() * CELL_DEG, north - (rows.max() + 1) * CELL_DEG
            yield ((left, bottom), (right, bottom), (right, top), (left, top))

    def route_text(self) -> str:
        """Four waypoints from south to north, or north to south when mirrored."""
        places = ((-0.16, 0.0), (-0.05, 0.004), (0.05, 0.0), (0.12, -0.05))
        sign = -1.0 if self.is_mirrored else 1.0
        return "\n".join(
            f"{self.lat_deg + sign * north:.6f}, {_wrapped(self.lon_deg + east):.6f}"
            for north, east in places
        )

    def write_whole(self) -> tuple[Path, ...]:
        """One elevation file and a coast file with longitudes as they come."""
        west, north = self.lon_deg - _SIDE_DEG / 2.0, self.lat_deg + _SIDE_DEG / 2.0
        tif = write_tif(
            self.folder / "land.tif", self.heights(), west=west, north=north, cell=CELL_DEG
        )
        box = (west, north - _SIDE_DEG, west + _SIDE_DEG, north)
        coast = write_geojson(self.folder / "coast.geojson", polygons=list(self.rings()), bbox=box)
        return tif, coast

    def plan(self, land: tuple[Path, ...], **options: Any) -> Outcome:
        """The whole job, with a radius of 6 NM unless told otherwise."""
        chosen = {"antenna_height_m": 20.0, "radius_m": m_from_nm(6.0), "corridor_m": 300.0}
        project = Project(
            route_text=self.route_text(),
            land=land,
            options=Options(**{**chosen, **options}),
        )
        return plan_passage(make_request(project), Quiet())


def _wrapped(lon_deg: float) -> float:
    return (lon_deg + 180.0) % 360.0 - 180.0


def figures(outcome: Outcome) -> list[dict[str, Any]]:
    """What a plan says of each leg, without places and receipts."""
    document = json.loads(json.dumps(plan_document(outcome)))
    return [
        {
            "course": leg["course_deg"],
            "distance": leg["distance_nm"],
            "status": leg["status"],
            "lines": [
                {
                    key: line[key]
                    for key in (
                        "role",
                        "side",
                        "cross_index_range_nm",
                        "from_along_nm",
                        "to_along_nm",
                        "range_scale_nm",
                    )
                }
                | {"object": line["object"]["id"]}
                for line in leg["index_lines"]
            ],
            "nearest": [v["nearest_land"] for v in leg["viewpoints"] if v["cross_nm"] == 0],
        }
        for leg in document["legs"]
    ]
