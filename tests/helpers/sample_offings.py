"""Offings as a comparison might find them; invented."""

from core.base.units import m_from_nm
from core.passage.passage import Side
from core.plan.offing_result import Offing, OffingLine, OffingPaint, OffingTable


def sample_offing(
    shift_m: float, *, warnings: tuple[str, ...] = (), is_complete: bool = True
) -> Offing:
    """One offing with an object to starboard that comes nearer the more it is shifted there."""
    return Offing(
        shift_m=shift_m,
        distance_change_m=0.1 * shift_m,
        lines=(
            OffingLine(
                object_id="A",
                name="islet 38 m high",
                role="primary",
                side=Side.STARBOARD,
                cross_index_range_m=m_from_nm(2.5) - shift_m,
                range_scale_m=m_from_nm(6.0),
                share_ratio=0.75,
            ),
        ),
        index_gap_minutes=3.2,
        worst_uncertainty_m=m_from_nm(0.061),
        paints=(
            OffingPaint(
                object_id="B",
                name="headland 90 m high",
                range_m=m_from_nm(9.0) if shift_m else None,
                along_m=m_from_nm(1.32) if shift_m else None,
                words="" if shift_m else "from the start",
            ),
        ),
        nearest_land_m=m_from_nm(1.239),
        nearest_hidden_m=None,
        hidden_count=0,
        emergence=None,
        is_complete=is_complete,
        warnings=warnings,
    )


def sample_offings(leg_number: int, shifts_m: tuple[float, ...]) -> OffingTable:
    """Offings of a leg, the planned one first."""
    return OffingTable(
        leg_number=leg_number,
        from_name="One",
        to_name="Two",
        offings=tuple(sample_offing(shift_m) for shift_m in (0.0, *shifts_m)),
        common_ids=("B",),
    )
