"""Rows to key into the radar: bearing, beam range, side, and where to cut each line short."""

from core.plan.plan_result import IndexLine, KeyIn


def key_in_row(line: IndexLine, *, ahead_at_start_m: float, ahead_at_end_m: float) -> KeyIn:
    """One row.

    Parameters
    ----------
    line : IndexLine
        The line.
    ahead_at_start_m, ahead_at_end_m : float
        How far ahead of own ship, measured along the line's bearing, the object lies at the
        start and at the end of the window, m; negative astern.

    Returns
    -------
    KeyIn
        Cut so that the line just reaches over the object's echo while it is in use.
    """
    places = (ahead_at_start_m, ahead_at_end_m)
    return KeyIn(
        line=line,
        bearing_deg=line.line_bearing_deg,
        beam_range_m=line.cross_index_range_m,
        side=line.side,
        truncate_ahead_m=max(0.0, *places),
        truncate_astern_m=max(0.0, *(-place for place in places)),
    )
