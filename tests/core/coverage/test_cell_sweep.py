"""The sweep raster: window, own cell, unknown cells, curvature, uncertainty."""

import math

import numpy as np
import pytest

from core.base.progress import Progress
from core.coverage.cell_sweep import IN_SIGHT, NO_DATA, UNCERTAIN, CellSweep, sweep_cells
from core.coverage.terrain import Terrain
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.land_model import Cell
from core.land.lattice import Lattice
from tests.helpers.bare_land import metric_lattice, terrain_of

NM = 1852.0
R_M = 6_371_000.0


def _sweep(
    terrain: Terrain,
    position: Position,
    *,
    antenna_height_m: float = 25.0,
    refraction_k: float = 4.0 / 3.0,
    radius_m: float = 3.0 * NM,
    target_height_m: float = 0.0,
    height_error_m: float = 0.0,
    is_exact: bool = True,
) -> CellSweep:
    return sweep_cells(
        terrain,
        position,
        antenna_height_m=antenna_height_m,
        refraction_k=refraction_k,
        radius_m=radius_m,
        target_height_m=target_height_m,
        height_error_m=height_error_m,
        is_exact=is_exact,
    )


def _geographic(lat_deg: float, lon_deg: float, half: int, cell_deg: float = 1 / 1200) -> Lattice:
    """Lattice whose middle cell has its centre at the place."""
    return Lattice(
        crs="EPSG:4326",
        left_x=lon_deg - (half + 0.5) * cell_deg,
        top_y=lat_deg + (half + 0.5) * cell_deg,
        cell_x=cell_deg,
        cell_y=cell_deg,
        rows=2 * half + 1,
        cols=2 * half + 1,
    )


def _tag(sweep: CellSweep, position: Position) -> int:
    row, col = sweep.lattice.row_col(np.array([position.lat_deg]), np.array([position.lon_deg]))
    return int(sweep.tags[round(float(row[0])), round(float(col[0]))])


SETTINGS = pytest.mark.parametrize("is_exact", [False, True])


def test_window_is_the_box_of_all_cells_whose_centres_lie_within_the_radius() -> None:
    position = Position(lat_deg=56.00007, lon_deg=-5.99987)
    lattice = _geographic(56.0, -6.0, 200)
    sweep = _sweep(terrain_of(lattice, np.zeros((401, 401), np.float32)), position)
    rows, cols = np.indices(sweep.tags.shape)
    lat, lon = sweep.lattice.lat_lon(rows.ravel().astype(float), cols.ravel().astype(float))
    distance, _b, _c = geodesic.inverse(
        from_lat_deg=position.lat_deg,
        from_lon_deg=position.lon_deg,
        to_lat_deg=lat,
        to_lon_deg=lon,
    )
    inside = (distance <= 3.0 * NM).reshape(sweep.tags.shape)
    assert np.array_equal(sweep.tags != NO_DATA, inside)
    for edge in (inside[0], inside[-1], inside[:, 0], inside[:, -1]):
        assert edge.any()


def test_window_keeps_the_corners_of_the_cells_and_goes_on_outside_the_data() -> None:
    lattice = _geographic(56.0, -6.0, 20)
    sweep = _sweep(
        terrain_of(lattice, np.zeros((41, 41), np.float32)), Position(lat_deg=56.0, lon_deg=-6.0)
    )
    off_cols = (sweep.lattice.left_x - lattice.left_x) / lattice.cell_x
    off_rows = (lattice.top_y - sweep.lattice.top_y) / lattice.cell_y
    assert off_cols == pytest.approx(round(off_cols), abs=1e-6)
    assert off_rows == pytest.approx(round(off_rows), abs=1e-6)
    assert round(off_cols) < -50
    assert round(off_rows) < -30
    inner = sweep.tags[
        round(-off_rows) : round(-off_rows) + 41, round(-off_cols) : round(-off_cols) + 41
    ]
    assert np.all(inner == IN_SIGHT)
    assert np.count_nonzero(sweep.tags != NO_DATA) == 41 * 41


@SETTINGS
def test_cell_the_antenna_stands_on_is_in_sight_even_high_on_land(is_exact: bool) -> None:
    lattice, position = metric_lattice("EPSG:32630", 56.0, -5.0, 30)
    heights = np.full((61, 61), 80.0, np.float32)
    sweep = _sweep(terrain_of(lattice, heights), position, radius_m=600.0, is_exact=is_exact)
    assert _tag(sweep, position) == IN_SIGHT


def test_radius_smaller_than_a_cell_still_gives_the_own_cell() -> None:
    lattice = _geographic(10.0, 20.0, 10)
    position = Position(lat_deg=10.0003, lon_deg=20.0003)
    sweep = _sweep(terrain_of(lattice, np.zeros((21, 21), np.float32)), position, radius_m=5.0)
    assert sweep.tags.shape == (1, 1)


def _hidden_height_m(distance_m: float, antenna_m: float, k: float) -> float:
    """Least height in sight over open water, closed form (handbook 1.1)."""
    beyond = max(distance_m - math.sqrt(2.0 * k * R_M * antenna_m), 0.0)
    return beyond**2 / (2.0 * k * R_M)


@SETTINGS
@pytest.mark.parametrize("k", [0.8, 1.0, 4.0 / 3.0, 2.0, 4.0])
@pytest.mark.parametrize("antenna_m", [5.0, 25.0, 60.0])
def test_height_hidden_by_the_sea_at_24_nm_is_right_to_a_tenth_of_a_metre(
    is_exact: bool, k: float, antenna_m: float
) -> None:
    here = Position(lat_deg=60.0, lon_deg=-10.0)
    lattice = _geographic(60.0, -10.0, 110, 1 / 120)
    terrain = terrain_of(lattice, np.zeros((221, 221), np.float32))
    lat, lon = lattice.lat_lon(np.array([110.0, 62.0]), np.array([204.0, 110.0]))
    for cell_lat, cell_lon in zip(lat, lon, strict=True):
        distance, _b, _c = geodesic.inverse(
            from_lat_deg=60.0, from_lon_deg=-10.0, to_lat_deg=cell_lat, to_lon_deg=cell_lon
        )
        assert 23.0 * NM < float(distance) < 24.1 * NM
        hidden_m = _hidden_height_m(float(distance), antenna_m, k)
        there = Position(lat_deg=float(cell_lat), lon_deg=float(cell_lon))
        # Inside the horizon the water itself is in sight, so nothing is to be hidden.
        for height_m in (hidden_m - 0.1, hidden_m + 0.1)[hidden_m == 0.0 :]:
            sweep = _sweep(
                terrain,
                here,
                radius_m=24.1 * NM,
                antenna_height_m=antenna_m,
                refraction_k=k,
                target_height_m=height_m,
                is_exact=is_exact,
            )
            assert _tag(sweep, there) == (IN_SIGHT if height_m > hidden_m else 0)


@SETTINGS
@pytest.mark.parametrize("k", [0.8, 4.0 / 3.0, 4.0])
@pytest.mark.parametrize("antenna_m", [5.0, 60.0])
def test_height_hidden_by_a_wall_at_24_nm_is_right_to_a_tenth_of_a_metre(
    is_exact: bool, k: float, antenna_m: float
) -> None:
    # A wall 5 cells thick, so that its top reaches from centre to centre whatever the step.
    here = Position(lat_deg=0.0, lon_deg=-30.0)
    lattice = _geographic(0.0, -30.0, 260, 1 / 600)
    heights = np.zeros((521, 521), np.float32)
    heights[:, 360:365] = 40.0
    terrain = terrain_of(lattice, heights)
    lat, lon = lattice.lat_lon(np.array([260.0]), np.array([360.0, 364.0, 499.0]))
    distance, _b, _c = geodesic.inverse(
        from_lat_deg=0.0, from_lon_deg=-30.0, to_lat_deg=np.repeat(lat, 3), to_lon_deg=lon
    )
    near_m, far_m, end_m = (float(d) for d in distance)
    slope = max((40.0 - antenna_m) / r - r / (2.0 * k * R_M) for r in (near_m, far_m))
    horizon_m = math.sqrt(2.0 * k * R_M * antenna_m)
    flattest = -2.0 * math.sqrt(antenna_m / (2.0 * k * R_M))
    slope = max(slope, flattest if horizon_m < end_m else -math.inf)
    hidden_m = antenna_m + slope * end_m + end_m**2 / (2.0 * k * R_M)
    there = Position(lat_deg=float(lat[0]), lon_deg=float(lon[2]))
    for height_m in (hidden_m - 0.1, hidden_m + 0.1):
        sweep = _sweep(
            terrain,
            here,
            radius_m=24.1 * NM,
            antenna_height_m=antenna_m,
            refraction_k=k,
            target_height_m=height_m,
            is_exact=is_exact,
        )
        assert _tag(sweep, there) == (IN_SIGHT if height_m > hidden_m else 0)


@SETTINGS
@pytest.mark.parametrize("antenna_m", [25.0, 60.0])
def test_small_cells_two_between_rays_still_give_heights_hidden_at_24_nm_to_a_tenth_of_a_metre(
    is_exact: bool, antenna_m: float
) -> None:
    # Cells of 31 m: beyond 12 NM rays lie up to two of them apart. Walls 13 and 18 NM off in the
    # east and the west, 5 cells thick; closed form as above.
    k, half, cell_deg = 4.0 / 3.0, 1450, 1 / 3600
    here = Position(lat_deg=0.0, lon_deg=-30.0)
    lattice = _geographic(0.0, -30.0, half, cell_deg)
    heights = np.zeros((2 * half + 1, 2 * half + 1), np.float32)
    heights[:, half + 780 : half + 785] = 40.0
    heights[:, half - 1083 : half - 1078] = 40.0
    terrain = terrain_of(lattice, heights)
    flattest = -2.0 * math.sqrt(antenna_m / (2.0 * k * R_M))
    for edges, row, col in (
        ((780, 784), 0, 1400),
        ((780, 784), 37, 1400),
        ((780, 784), 213, 1380),
        ((1079, 1083), 0, -1410),
        ((1079, 1083), -101, -1410),
    ):
        lat, lon = lattice.lat_lon(np.array([float(half + row)]), np.array([float(half + col)]))
        there = Position(lat_deg=float(lat[0]), lon_deg=float(lon[0]))
        end_m = float(
            geodesic.inverse(from_lat_deg=0.0, from_lon_deg=-30.0, to_lat_deg=lat, to_lon_deg=lon)[
                0
            ][0]
        )
        ranges = [edge / abs(col) * end_m for edge in edges]
        slope = max((40.0 - antenna_m) / r - r / (2.0 * k * R_M) for r in ranges)
        slope = max(slope, flattest)
        hidden_m = antenna_m + slope * end_m + end_m**2 / (2.0 * k * R_M)
        for height_m in (hidden_m - 0.1, hidden_m + 0.1):
            sweep = _sweep(
                terrain,
                here,
                radius_m=24.0 * NM,
                antenna_height_m=antenna_m,
                refraction_k=k,
                target_height_m=height_m,
                is_exact=is_exact,
            )
            assert _tag(sweep, there) == (IN_SIGHT if height_m > hidden_m else 0)


@SETTINGS
def test_wall_one_cell_wide_beyond_12_nm_hides_what_it_must(is_exact: bool) -> None:
    # Antenna 60 m, a wall 60 m high 14 NM off hides the water behind it for ever.
    here = Position(lat_deg=0.0, lon_deg=-30.0)
    half = 1320
    lattice = _geographic(0.0, -30.0, half, 1 / 3600)
    heights = np.zeros((2 * half + 1, 2 * half + 1), np.float32)
    heights[:, half + 840] = 60.0
    sweep = _sweep(
        terrain_of(lattice, heights),
        here,
        antenna_height_m=60.0,
        refraction_k=3.0,
        radius_m=21.0 * NM,
        is_exact=is_exact,
    )
    middle_row, middle = (side // 2 for side in sweep.tags.shape)
    for row in range(middle_row - 300, middle_row + 301, 7):
        line = sweep.tags[row] & IN_SIGHT
        assert np.all(line[middle + 1 : middle + 841] == 1)
        assert not np.any(line[middle + 841 : middle + 1200] == 1)


@SETTINGS
def test_wall_one_cell_wide_hides_what_it_must(is_exact: bool) -> None:
    # Antenna 25 m, wall 30 m high 1.5 km off: everything low behind it is hidden for ever
    # (similar triangles, job.md T8), before it everything is in sight.
    lattice, position = metric_lattice("EPSG:32630", 56.0, -5.0, 200)
    heights = np.zeros((401, 401), np.float32)
    heights[:, 250] = 30.0
    sweep = _sweep(terrain_of(lattice, heights), position, radius_m=5500.0, is_exact=is_exact)
    middle = sweep.tags.shape[0] // 2
    for row in (middle - 60, middle - 7, middle, middle + 23, middle + 60):
        line = sweep.tags[row] & IN_SIGHT
        wall = sweep.tags.shape[1] // 2 + 50
        assert np.all(line[middle - 60 : wall + 1] == 1)
        assert not np.any(line[wall + 1 : wall + 110] == 1)


def _ridge_and_void(*, void_first: bool) -> tuple[Terrain, Position]:
    """East of the antenna a void and a ridge 200 m high, one behind the other; sea behind."""
    lattice, position = metric_lattice("EPSG:32630", 56.0, -5.0, 150)
    heights = np.zeros((301, 301), np.float32)
    near, far = slice(190, 194), slice(210, 214)
    heights[:, near if void_first else far] = np.nan
    heights[:, far if void_first else near] = 200.0
    return terrain_of(lattice, heights), position


@SETTINGS
def test_void_in_front_of_a_target_makes_it_unknown(is_exact: bool) -> None:
    terrain, position = _ridge_and_void(void_first=True)
    line = _sweep(terrain, position, radius_m=4000.0, is_exact=is_exact)
    row = line.tags[line.tags.shape[0] // 2]
    middle = row.size // 2
    assert np.all(row[middle + 1 : middle + 40] == IN_SIGHT)  # before the void
    assert np.all(row[middle + 40 : middle + 61] == NO_DATA)  # void, and up to the ridge
    assert np.all(row[middle + 66 : middle + 120] == 0)  # hidden by the known ridge
    west = row[middle - 120 : middle]
    assert np.all(west == IN_SIGHT)


@SETTINGS
def test_void_behind_a_ridge_that_hides_the_target_leaves_it_hidden(is_exact: bool) -> None:
    terrain, position = _ridge_and_void(void_first=False)
    sweep = _sweep(terrain, position, radius_m=4000.0, is_exact=is_exact)
    row = sweep.tags[sweep.tags.shape[0] // 2]
    middle = row.size // 2
    assert np.all(row[middle + 46 : middle + 60] == 0)
    assert np.all(row[middle + 60 : middle + 64] == NO_DATA)  # the void itself
    assert np.all(row[middle + 66 : middle + 120] == 0)
    high = _sweep(terrain, position, radius_m=4000.0, target_height_m=900.0, is_exact=is_exact)
    behind = high.tags[high.tags.shape[0] // 2, middle + 66 : middle + 120]
    assert np.all(behind == NO_DATA)  # over the ridge, but behind unknown heights


def test_single_unknown_cell_is_never_looked_through() -> None:
    lattice, position = metric_lattice("EPSG:32630", 56.0, -5.0, 150)
    heights = np.zeros((301, 301), np.float32)
    heights[110, 97] = np.nan
    for is_exact in (False, True):
        sweep = _sweep(terrain_of(lattice, heights), position, radius_m=4400.0, is_exact=is_exact)
        half = sweep.tags.shape[0] // 2
        for far in np.arange(1.05, 2.3, 0.05):  # straight through the middle of the void
            row, col = round(half - 40 * far), round(half - 53 * far)
            off = abs(row - half + 40 * far) + abs(col - half + 53 * far)
            if off < 0.3:
                assert sweep.tags[row, col] == NO_DATA


@pytest.mark.parametrize("error_m", [1.0, 5.0, 20.0])
def test_uncertain_is_exactly_where_targets_by_the_error_higher_and_lower_differ(
    error_m: float,
) -> None:
    random = np.random.default_rng(11)
    lattice, position = metric_lattice("EPSG:32630", 56.0, -5.0, 120)
    heights = np.maximum(random.normal(0.0, 20.0, (241, 241)), 0.0).astype(np.float32)
    heights[100:140, 100:140] = 0.0
    terrain = terrain_of(lattice, heights)
    nominal, high, low = (
        _sweep(terrain, position, radius_m=3500.0, target_height_m=target_m, height_error_m=error_m)
        for target_m in (25.0, 25.0 + error_m, 25.0 - error_m)
    )
    known = nominal.tags != NO_DATA
    differs = ((high.tags ^ low.tags) & IN_SIGHT) == IN_SIGHT
    marked = (nominal.tags & UNCERTAIN) == UNCERTAIN
    assert np.count_nonzero(marked[known]) > 100
    own = (nominal.tags.shape[0] // 2, nominal.tags.shape[1] // 2)
    differs[own] = False
    assert np.array_equal(marked[known], differs[known])


def _rough(seed: int, half: int) -> np.ndarray:
    random = np.random.default_rng(seed)
    heights = np.maximum(random.normal(-20.0, 40.0, (2 * half + 1, 2 * half + 1)), 0.0)
    heights[half - 12 : half + 13, half - 12 : half + 13] = 0.0
    return heights.astype(np.float32)


@SETTINGS
def test_second_run_gives_the_same_bits(is_exact: bool) -> None:
    lattice = _geographic(70.0, 20.0, 150)
    position = Position(lat_deg=70.0002, lon_deg=20.0003)
    runs = [
        _sweep(
            terrain_of(lattice, _rough(5, 150)), position, target_height_m=5.0, is_exact=is_exact
        )
        for _ in range(2)
    ]
    assert runs[0].tags.tobytes() == runs[1].tags.tobytes()


@pytest.mark.parametrize(("lat_deg", "lon_deg"), [(56.0, 179.995), (-70.0, -179.999)])
def test_across_the_antimeridian_nothing_changes(lat_deg: float, lon_deg: float) -> None:
    heights = _rough(6, 150)
    tags = []
    for lon in (lon_deg, 20.0):
        lattice = _geographic(lat_deg, lon, 150)
        position = Position(lat_deg=lat_deg, lon_deg=lon)
        tags.append(_sweep(terrain_of(lattice, heights), position, target_height_m=5.0).tags)
    assert tags[0].shape == tags[1].shape
    assert np.mean(tags[0] != tags[1]) < 1e-4  # cells within millimetres of the radius


def test_northern_and_southern_hemisphere_mirror_each_other() -> None:
    heights = _rough(8, 150)
    tags = []
    for lat, turned in ((55.0, heights), (-55.0, heights[::-1].copy())):
        lattice = _geographic(lat, 10.0, 150)
        position = Position(lat_deg=lat, lon_deg=10.0)
        tags.append(_sweep(terrain_of(lattice, turned), position, target_height_m=5.0).tags)
    assert np.mean(tags[0] != tags[1][::-1]) < 2e-3  # rounding falls the other way


def test_antenna_on_the_edge_of_the_data_sees_the_side_that_is_known() -> None:
    lattice = _geographic(56.0, -6.0, 60)
    lat, lon = lattice.lat_lon(np.array([60.0]), np.array([0.0]))
    position = Position(lat_deg=float(lat[0]), lon_deg=float(lon[0]))
    sweep = _sweep(terrain_of(lattice, np.zeros((121, 121), np.float32)), position, radius_m=3000.0)
    half_cols = sweep.tags.shape[1] // 2
    middle = sweep.tags[sweep.tags.shape[0] // 2]
    assert np.all(middle[:half_cols] == NO_DATA)
    assert np.all(middle[half_cols:] == IN_SIGHT)


def test_antenna_outside_all_data_knows_nothing() -> None:
    lattice = _geographic(56.0, -6.0, 20)
    terrain = terrain_of(lattice, np.zeros((41, 41), np.float32))
    sweep = _sweep(terrain, Position(lat_deg=56.0, lon_deg=-5.95))
    assert np.all(sweep.tags == NO_DATA)


def test_unknown_cells_keep_their_kind_out_of_the_raster() -> None:
    lattice = _geographic(56.0, -6.0, 60)
    heights = np.zeros((121, 121), np.float32)
    cell = np.zeros((121, 121), np.uint8)
    for number, code in enumerate((Cell.VOID, Cell.MISSING, Cell.BEYOND)):
        heights[40, 50 + number] = np.nan
        cell[40, 50 + number] = code
    sweep = _sweep(terrain_of(lattice, heights, cell), Position(lat_deg=56.0, lon_deg=-6.0))
    assert set(np.unique(sweep.tags)) == {IN_SIGHT, NO_DATA}


class _Stop(Exception):
    pass


class _Stopping(Progress):
    def report(self, fraction: float, text: str = "") -> None:
        raise _Stop(text)


def test_sweep_can_be_stopped() -> None:
    lattice = _geographic(56.0, -6.0, 10)
    terrain = terrain_of(lattice, np.zeros((21, 21), np.float32))
    with pytest.raises(_Stop):
        sweep_cells(
            terrain,
            Position(lat_deg=56.0, lon_deg=-6.0),
            antenna_height_m=10.0,
            refraction_k=1.0,
            radius_m=500.0,
            target_height_m=0.0,
            height_error_m=5.0,
            is_exact=False,
            progress=_Stopping(),
        )
