"""Land shadows over the whole corridor: the union of what track and edges have hidden."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from core.base.progress import Quiet
from core.coverage.corridor_outlines import corridor_outlines
from core.coverage.corridor_shadows import shadow_steps
from core.coverage.coverage_result import LandShadow, LegCoverage, SweepSettings
from core.coverage.hidden_water import hidden_from
from core.coverage.leg_shadows import leg_shadows
from core.coverage.profiles import grid_of
from core.coverage.run import cover_passage
from core.land.land_model import LandModel
from core.passage.passage import Side
from tests.helpers.islands import NM, box, flat_sea, place, track

_SETTINGS = SweepSettings(antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=6.0 * NM)


def _leg(land: LandModel, corridor_m: float | None) -> LegCoverage:
    passage = track((0.0, -1.5 * NM), (0.0, 1.5 * NM), corridor_m=corridor_m or 1.0)
    return cover_passage(passage, land, _SETTINGS, Quiet()).legs[0]


def _islet_land() -> LandModel:
    shape = box(1.0 * NM, -0.2 * NM, 1.2 * NM, 0.2 * NM)
    return flat_sea(half_width_m=8.0 * NM, cell_m=20.0).land(shape, 40.0).model()


def test_corridor_widens_the_sector_of_a_shadow() -> None:
    # By hand: from the south end of the leg, 1.5 NM short of abeam, the islet's north-west corner
    # at (1.0, 0.2) bears atan(1.0 / 1.7) = 30.5 deg from the track and atan(0.7 / 1.7) = 22.4 from
    # the starboard edge; the north end is the mirror
    land = _islet_land()
    (narrow,) = _leg(land, None).shadows
    (wide,) = _leg(land, 0.3 * NM).shadows
    assert wide.side is narrow.side is Side.STARBOARD
    assert (narrow.bearing_from_deg, narrow.bearing_to_deg) == pytest.approx((30.5, 149.5), abs=0.8)
    assert (wide.bearing_from_deg, wide.bearing_to_deg) == pytest.approx((22.4, 157.6), abs=0.8)
    assert wide.range_from_m == pytest.approx(narrow.range_from_m - 0.3 * NM, abs=40.0)
    assert wide.track_along_m == pytest.approx((0.0, 3.0 * NM), abs=1.0)
    assert (wide.from_along_m, wide.to_along_m) == pytest.approx((0.0, 3.0 * NM), abs=1.0)


def test_shadow_that_only_an_edge_has_is_told_as_such() -> None:
    # The shadows of the track and of the port edge are taken away, and half of the other edge's
    land = _islet_land()
    leg = _leg(land, 0.3 * NM)
    views = tuple(
        v
        if v.viewpoint.cross_m > 0.0 and v.viewpoint.along_m > 1.4 * NM
        else replace(v, shadows=())
        for v in leg.viewpoints
    )
    line = track((0.0, -1.5 * NM), (0.0, 1.5 * NM)).line(0)
    (shadow,) = leg_shadows(views, line, grid_of(land), _SETTINGS)
    assert shadow.track_along_m is None
    # places are 0.25 NM apart: the first with a shadow is 1.5 NM along
    assert shadow.from_along_m / NM == pytest.approx(1.375, abs=0.01)
    assert "land 40 m high" in shadow.cause


@given(st.floats(0.0, 359.9), st.floats(1.0, 170.0), st.floats(0.0, 359.9), st.floats(1.0, 170.0))
def test_joined_sectors_hold_both(
    a_deg: float, a_width: float, b_deg: float, b_width: float
) -> None:
    (view,) = [
        v for v in _LEG.viewpoints if v.viewpoint.along_m == 0.0 and v.viewpoint.cross_m == 0
    ]
    (edge,) = [v for v in _LEG.viewpoints if v.viewpoint.along_m == 0.0 and v.viewpoint.cross_m > 0]
    one, other = _shadow(a_deg, a_width), _shadow(b_deg, b_width)
    steps = shadow_steps((replace(view, shadows=(one,)), replace(edge, shadows=(other,))))
    for shadow in (one, other):
        for share in (0.01, 0.5, 0.99):
            width = (shadow.bearing_to_deg - shadow.bearing_from_deg) % 360.0
            bearing = shadow.bearing_from_deg + share * width
            assert any(
                (bearing - patch.bearing_from_deg) % 360.0 <= patch.width_deg + 1e-6
                for patch in steps.patches[0]
            )


def _shadow(from_deg: float, width_deg: float) -> LandShadow:
    return LandShadow(
        bearing_from_deg=from_deg,
        bearing_to_deg=(from_deg + width_deg) % 360.0,
        range_from_m=1000.0,
        range_to_m=3000.0,
    )


_LEG = _leg(_islet_land(), 0.3 * NM)


def test_outlines_hold_what_any_viewpoint_abreast_has_hidden() -> None:
    # Points of the islet's lee, asked of track and edges one by one against the union
    here = tuple(v for v in _LEG.viewpoints if abs(v.viewpoint.along_m - 1.5 * NM) < 1.0)
    assert len(here) == 3
    pieces = [
        shapely.Polygon(np.column_stack([rings[0][1], rings[0][0]]))
        for rings in corridor_outlines(here)
    ]
    whole = shapely.union_all(pieces)
    east, north = (
        a.ravel() for a in np.meshgrid(np.arange(1.25, 5.0, 0.31), np.arange(-1, 1, 0.17))
    )
    spots = [place(float(x) * NM, float(y) * NM) for x, y in zip(east, north, strict=True)]
    lat, lon = np.array([s.lat_deg for s in spots]), np.array([s.lon_deg for s in spots])
    hidden = np.any([hidden_from(view, lat, lon) for view in here], axis=0)
    assert 20 < int(hidden.sum()) < hidden.size - 20
    # what lies within 40 m of the outline is left aside: it is drawn in straight strokes
    clear = shapely.distance(shapely.boundary(whole), shapely.points(lon, lat)) > 40.0 / 111_000.0
    assert (shapely.contains_xy(whole, lon, lat) == hidden)[clear].all()
