"""Invented radar fixes of a leg: by three ranges, by range and bearing, none; one too wide."""

from core.base.units import m_from_nm
from core.plan import reason_codes
from core.plan.fix_result import CrossStretch, Fix, FixBy, FixObject, LegFixes
from core.plan.reason import Reason


def _thing(name: str, range_nm: float, bearing_deg: float) -> FixObject:
    return FixObject(
        object_id=name,
        name=f"islet 38 m, {range_nm} NM off",
        range_m=m_from_nm(range_nm),
        bearing_deg=bearing_deg,
        is_point_like=True,
    )


def _fix(along_m: float, by: FixBy, *objects: FixObject, major_nm: float = 0.1) -> Fix:
    is_none = by is FixBy.NONE
    reason = None
    if by is FixBy.RANGE_AND_BEARING:
        reason = Reason(code=reason_codes.FIX_ONE_ONLY, values=(("object", objects[0].object_id),))
    elif is_none:
        reason = Reason(code=reason_codes.FIX_NOTHING)
    return Fix(
        along_m=along_m,
        by=by,
        scale_m=m_from_nm(6.0),
        is_scale_in_use=by is not FixBy.RANGE_AND_BEARING,
        objects=objects,
        cut_deg=0.0 if is_none else 90.0,
        semi_major_m=0.0 if is_none else m_from_nm(major_nm),
        semi_minor_m=0.0 if is_none else m_from_nm(major_nm / 2.0),
        major_axis_deg=0.0 if is_none else 45.0,
        across_m=0.0 if is_none else m_from_nm(major_nm * 0.8),
        reason=reason,
        cross_error_m=None if is_none else m_from_nm(0.04),
    )


def fixes_over(length_m: float, corridor_m: float) -> LegFixes:
    """Five fixes over a leg, two of them none."""
    a, b, c = _thing("A", 1.234, 40.0), _thing("B", 2.5, 130.0), _thing("C", 11.04, 200.0)
    fixes = (
        _fix(0.0, FixBy.NONE),
        _fix(0.2 * length_m, FixBy.NONE),
        _fix(0.5 * length_m, FixBy.RANGE_AND_BEARING, a, major_nm=0.11),
        _fix(0.7 * length_m, FixBy.RANGES, a, b, c, major_nm=2.0 * corridor_m / 1852.0),
        _fix(0.9 * length_m, FixBy.RANGES, a, b, major_nm=0.12),
    )
    return LegFixes(
        interval_s=360.0,
        fixes=fixes,
        worst_m=2.0 * corridor_m,
        corridor_m=corridor_m,
        worst_cross=CrossStretch(from_along_m=0.0, to_along_m=0.35 * length_m, error_m=None),
    )
