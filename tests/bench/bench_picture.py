"""How long the expected picture takes: a new viewpoint, a change of control; in ms and ratios.

Run by hand, not in CI: ``python -m tests.bench.bench_picture [FOLDER OF REAL DATA]``. Real
elevation is brought to 30 m cells; without a folder invented islands are used.
"""

import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from statistics import median

from core.coverage.echo_sweep import sweep_echo
from core.coverage.terrain import Terrain
from core.geodesy.position import Position
from core.picture.expected_picture import frame_of, make_picture
from core.picture.picture_view import view_place
from core.picture.screen_frame import Orientation
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band
from tests.helpers.bare_land import metric_lattice, resampled, terrain_of
from tests.helpers.islands import CENTRE, NM
from tests.helpers.picture_views import waters

VIEW_LIMIT_MS, CONTROL_LIMIT_MS = 150.0, 33.0
_ROUNDS = 9


def _ms(work: Callable[[], object]) -> float:
    work()
    taken = []
    for _ in range(_ROUNDS):
        start = time.perf_counter()
        work()
        taken.append((time.perf_counter() - start) * 1e3)
    return median(taken)


def _terrain(folder: Path | None) -> tuple[Terrain, Position]:
    if folder is None:
        return waters("islands"), CENTRE
    half = int(24.5 * NM / 30.0)
    lattice, place = metric_lattice("EPSG:32630", 56.22, -5.72, half, 30.0)
    return terrain_of(lattice, resampled(folder, "scotland_lorn_kintyre", lattice)), place


def main() -> None:
    """Print a line for each scale."""
    terrain, place = _terrain(Path(sys.argv[1]) if len(sys.argv) > 1 else None)
    print("scale  cells        view ms (of 150)  over sweep  whole ms  control ms (of 33)  rows ms")  # noqa: T201
    for scale_nm in (1.5, 3.0, 6.0, 12.0, 24.0):
        for beam_deg in (1.9, 0.95):
            radar = replace(preset_set(Band.X, Preset.TYPICAL), horizontal_beamwidth_deg=beam_deg)
            budget = EchoBudget(
                radar=radar,
                pulse=radar.pulse_for_scale(scale_nm * NM),
                antenna_height_m=25.0,
                conditions=Conditions(sea_state=4.0, rain_mm_h=2.0),
            )
            moved = [0]

            def look(budget: EchoBudget = budget, scale_nm: float = scale_nm) -> object:
                # Each time from another place: nothing is kept from the last.
                moved[0] += 1  # noqa: B023
                at = replace(place, lat_deg=place.lat_deg + 1e-4 * moved[0])  # noqa: B023
                return view_place(terrain, at, budget, scale_m=scale_nm * NM)

            view = view_place(terrain, place, budget, scale_m=scale_nm * NM)
            frame = frame_of(view, Orientation.NORTH_UP, size_px=700, course_deg=0.0)
            picture = make_picture(view, frame)
            changed = replace(
                picture.well, gain_db=-3.0, rain_clutter=0.4, echo_stretch=True,
                interference_rejection=True,
            )  # fmt: skip
            sweep_ms = _ms(
                lambda view=view, budget=budget: sweep_echo(  # type: ignore[misc]
                    terrain, place, antenna_height_m=25.0,
                    refraction_k=budget.conditions.refraction_k, radius_m=view.radius_m,
                    cell_m=view.cell_m, bearing_count=view.bearings,
                )
            )  # fmt: skip
            view_ms = _ms(look)
            whole_ms = _ms(lambda v=view, f=frame: make_picture(v, f).screen()) + view_ms  # type: ignore[misc]
            control_ms = _ms(lambda p=picture, c=changed: p.under(c).screen())  # type: ignore[misc]
            under = picture.under(changed)
            rows_ms = _ms(under.rows)
            shape = f"{view.bearings}x{view.echo_db.shape[1]}"
            print(  # noqa: T201
                f"{scale_nm:5g}  {shape:11s}  {view_ms:7.1f} {view_ms / VIEW_LIMIT_MS:5.2f}      "
                f"{view_ms / sweep_ms:6.2f}      {whole_ms:6.1f}    {control_ms:6.1f} "
                f"{control_ms / CONTROL_LIMIT_MS:5.2f}        {rows_ms:6.1f}"
            )


if __name__ == "__main__":
    main()
