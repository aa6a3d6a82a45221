import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from rasterio.features import rasterize
from rasterio.transform import Affine

from core.geodesy.position import Bounds
from core.land.land_raster import cells_in_boxes, cells_of_polygons, inside_rings, winding
from core.land.lattice import Lattice

LATTICE = Lattice(
    crs="EPSG:4326", left_x=-30.0, top_y=40.0, cell_x=0.01, cell_y=0.01, rows=60, cols=80
)


def _star(seed: int, corners: int) -> shapely.Polygon:
    random = np.random.default_rng(seed)
    turn = np.sort(random.uniform(0.0, 2.0 * np.pi, corners))
    away = random.uniform(0.05, 0.28, corners)
    return shapely.Polygon(
        np.stack([-29.6 + away * np.cos(turn), 39.7 + away * np.sin(turn)], axis=1)
    )


@given(seed=st.integers(0, 10_000), corners=st.integers(3, 40))
def test_cells_are_inside_exactly_where_their_centre_is(seed: int, corners: int) -> None:
    # Reference: GEOS point in polygon through shapely.
    polygon = _star(seed, corners)
    # Corners all to one side of the middle: the closing edge may cross another.
    assume(polygon.is_valid)
    rows, cols = np.meshgrid(np.arange(60.0), np.arange(80.0), indexing="ij")
    lat, lon = LATTICE.lat_lon(rows.ravel(), cols.ravel())
    expected = shapely.contains_xy(polygon, lon, lat).reshape(60, 80)
    ring = shapely.get_coordinates(polygon.exterior)
    assert np.array_equal(inside_rings(LATTICE, [ring]), expected)
    assert np.array_equal(inside_rings(LATTICE, [ring[::-1]]), expected)


@pytest.mark.filterwarnings("ignore::PendingDeprecationWarning")  # inside rasterio
@pytest.mark.parametrize("seed", range(5))
def test_cells_agree_with_gdal_rasterize(seed: int) -> None:
    # Reference: GDAL's rasterize, cell centre rule, through rasterio.
    polygon = _star(seed, 25)
    transform = Affine(0.01, 0.0, -30.0, 0.0, -0.01, 40.0)
    expected = rasterize([polygon], (60, 80), transform=transform)
    assert np.array_equal(inside_rings(LATTICE, [shapely.get_coordinates(polygon)]), expected > 0)


def test_weights_add_up_where_rings_overlap() -> None:
    outer = shapely.get_coordinates(shapely.box(-29.9, 39.5, -29.5, 39.9))
    inner = shapely.get_coordinates(shapely.box(-29.8, 39.6, -29.7, 39.7))
    label = winding(LATTICE, [outer, inner], [7, -3])
    assert set(np.unique(label)) == {0, 4, 7}
    assert (label == 4).sum() == 100


def test_overlapping_polygons_stay_land() -> None:
    one, other = shapely.box(-29.9, 39.5, -29.6, 39.9), shapely.box(-29.7, 39.5, -29.4, 39.9)
    both = cells_of_polygons(LATTICE, [one, other])
    whole = cells_of_polygons(LATTICE, [shapely.union(one, other)])
    assert np.array_equal(both, whole)


def test_islet_smaller_than_a_cell_marks_the_cell_it_lies_in() -> None:
    islet = shapely.box(-29.9049, 39.9049, -29.9041, 39.9056)
    small = shapely.box(-29.9089, 39.9081, -29.9081, 39.9089)
    assert cells_of_polygons(LATTICE, [islet]).sum() == 1
    marked = cells_of_polygons(LATTICE, [small])
    assert np.argwhere(marked).tolist() == [[9, 9]]


def test_islet_outside_the_lattice_marks_nothing() -> None:
    assert not cells_of_polygons(LATTICE, [shapely.box(-31.0, 39.0, -30.999, 39.001)]).any()


def test_box_over_the_antimeridian_holds_cells_on_both_sides() -> None:
    lattice = Lattice(
        crs="EPSG:4326", left_x=179.5, top_y=1.0, cell_x=0.1, cell_y=0.1, rows=10, cols=10
    )
    box = Bounds(south_deg=0.0, west_deg=179.7, north_deg=1.0, east_deg=180.2)
    inside = cells_in_boxes(lattice, [box])
    assert inside[0].tolist() == [False, False] + [True] * 5 + [False] * 3


def test_metric_lattice_uses_latitude_and_longitude_of_centres() -> None:
    lattice = Lattice(
        crs="EPSG:32626", left_x=500_000.0, top_y=4_427_000.0, cell_x=500.0, cell_y=500.0,
        rows=40, cols=40,
    )  # fmt: skip
    box = Bounds(south_deg=39.9, west_deg=-26.95, north_deg=39.95, east_deg=-26.9)
    inside = cells_in_boxes(lattice, [box])
    rows, cols = np.nonzero(inside)
    lat, lon = lattice.lat_lon(rows.astype(float), cols.astype(float))
    assert inside.any()
    assert lat.min() >= 39.9
    assert lat.max() <= 39.95
    assert lon.min() >= -26.95
    assert lon.max() <= -26.9
