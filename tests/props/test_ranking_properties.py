"""On random coasts, masked, sliding, tide-mobile and floating edges never rank first (A5).

Coasts are put together from pieces whose worth is known by their making, in random order along a
leg, on random sides, at random distances; common practice, no source (job note 2.3, 2.4).
"""

from dataclasses import dataclass

import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.plan.plan_result import LegPlan, Mark, Role
from core.words.reasons import sentence
from tests.helpers.independent_ray import land_in_sight_near
from tests.helpers.islands import NM, Sea, box, disc, flat_sea, islet, place, track
from tests.helpers.plans import covered, mark, planned

_BAD = ("beach", "round head", "masked islet")
_HEIGHTS = {"steep islet": 40.0, "round head": 60.0, "masked islet": 15.0}
_WORDS = {
    "beach": ("low shore", "tide moves", "no land within"),
    "round head": ("slides", "straight"),
    "masked islet": ("masked",),
}
_HALF_M = 8.0 * NM


@dataclass(frozen=True)
class Piece:
    """A piece of coast about a place abeam of the track."""

    kind: str
    side: int
    off_nm: float
    north_nm: float

    @property
    def east_m(self) -> float:
        return self.side * self.off_nm * NM

    def put(self, sea: Sea) -> Sea:
        north = self.north_nm * NM
        if self.kind == "steep islet":
            return sea.land(islet(self.east_m, north, width_m=200.0), _HEIGHTS[self.kind])
        if self.kind == "round head":
            # A tangent seen 30 deg off the bow walks 1.8 NM (1 - cos 30 deg), 0.24 NM.
            far = self.east_m + self.side * 1.8 * NM
            return sea.land(disc(far, north, 1.8 * NM), _HEIGHTS[self.kind])
        if self.kind == "masked islet":
            wall = self.east_m - self.side * 400.0
            sea = sea.land(islet(self.east_m, north, width_m=200.0), _HEIGHTS[self.kind])
            west, east = sorted((wall, wall - self.side * 200.0))
            return sea.land(box(west, north - 1.4 * NM, east, north + 1.4 * NM), 80.0)

        inner, outer = self.east_m, self.side * (self.off_nm + 2.0) * NM
        shape = shapely.Polygon(
            [(inner, north), (outer, north - 1.0 * NM), (outer, north + 1.0 * NM)]
        )

        def slope(east: np.ndarray, north: np.ndarray) -> np.ndarray:
            # 1:100 from every shore: 4 m of tide move its edge by 400 m.
            off_m = shapely.distance(shapely.points(east, north), shape.exterior)
            return np.asarray(np.maximum(off_m * 0.01, 0.2))

        return sea.land(shape, slope)

    def holds(self, lat_deg: float, lon_deg: float) -> bool:
        """Whether a place belongs to it: the pieces stand 4 NM apart along the track."""
        here = place(0.0, self.north_nm * NM)
        north_m = (lat_deg - here.lat_deg) * 110_574.0
        is_side = (lon_deg - here.lon_deg) * self.side > 0.0
        return bool(abs(north_m) <= 2.0 * NM and is_side)


@st.composite
def coasts(draw: st.DrawFn) -> tuple[tuple[Piece, ...], Mark]:
    """One steep islet or none, and some bad pieces, in random order."""
    kinds = draw(st.permutations(("steep islet", *_BAD)))
    wanted = [k for k in kinds if k != "steep islet" or draw(st.booleans())]
    pieces = tuple(
        Piece(
            kind=kind,
            side=draw(st.sampled_from((-1, 1))),
            off_nm=draw(st.floats(0.8, 1.6)),
            north_nm=-6.0 + 4.0 * i,
        )
        for i, kind in enumerate(wanted)
    )
    buoy = mark("Buoy", draw(st.floats(0.4, 1.5)) * NM, 0.0, is_fixed=False, kind="buoy")
    return pieces, buoy


def planned_on(pieces: tuple[Piece, ...], buoy: Mark) -> tuple[Sea, LegPlan]:
    sea = flat_sea(half_width_m=13.0 * NM, cell_m=90.0)
    for piece in pieces:
        sea = piece.put(sea)
    land = sea.model()
    passage = track((0.0, -_HALF_M), (0.0, _HALF_M))
    return sea, planned(land, passage, covered(land, passage), marks=(buoy,)).legs[0]


@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
@given(coasts())
def test_what_is_bad_never_ranks_first_and_says_why(
    drawn: tuple[tuple[Piece, ...], Mark],
) -> None:
    pieces, buoy = drawn
    sea, leg = planned_on(pieces, buoy)
    land = sea.model()
    by_kind = {piece.kind: piece for piece in pieces}
    assert all(look.object.is_fixed for look in leg.looks)
    assert all(line.object.is_fixed for line in leg.lines)
    for look in leg.looks:
        position = look.object.position
        owner = [p for p in pieces if p.holds(position.lat_deg, position.lon_deg)]
        words = sentence(look.reason)
        if not look.is_weak:
            assert [p.kind for p in owner if p.kind in ("beach", "round head")] == [], words
        for piece in owner:
            is_own = look.object.height_above_water_m == pytest.approx(
                _HEIGHTS.get(piece.kind, -1.0), abs=1.0
            )
            if piece.kind in ("beach", "round head") or (piece.kind == "masked islet" and is_own):
                assert look.is_weak, words
                assert any(word in words for word in _WORDS[piece.kind]), words
    first = leg.looks[0] if leg.looks else None
    if "steep islet" in by_kind:
        assert first is not None
        assert first.object.height_above_water_m == pytest.approx(40.0)
        assert not first.is_weak
        assert any(line.object.id == first.object.id for line in leg.lines)
    # By a ray of its own: what is indexed is in sight at both ends of its window.
    line = track((0.0, -_HALF_M), (0.0, _HALF_M)).line(0)
    for index in leg.lines:
        if index.role not in (Role.PRIMARY, Role.CHECK):
            continue
        for along in (index.from_along_m, index.to_along_m):
            own = line.position_at(along)
            assert land_in_sight_near(
                land,
                from_lat_deg=own.lat_deg,
                from_lon_deg=own.lon_deg,
                to_lat_deg=index.object.position.lat_deg,
                to_lon_deg=index.object.position.lon_deg,
                antenna_height_m=25.0,
                refraction_k=4.0 / 3.0,
                within_m=200.0,
            )
