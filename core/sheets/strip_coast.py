"""The coast in track coordinates, each stretch in the style of how it stands to the leg."""

from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry import LineString

from core.base.arrays import ByteArray
from core.coverage.coverage_result import CoastPaint, CoastState, LegCoverage
from core.geodesy.leg_line import LegLine
from core.land.land_model import LandModel
from core.sheets.page import Dash, Stroke, Tone
from core.sheets.strip_edge import MovedCoast, nearest_points
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_plain import halves, near_strip, plain_places, window_of

SIMPLIFY_MM = 0.06
_COAST_STEP_MM = 0.8
_COAST_REACH_MM = 4.0

COAST_STYLES = {
    CoastState.OUTSIDE: (Tone.COAST_HIDDEN, 0.3, Dash.DOTTED),
    CoastState.HIDDEN: (Tone.COAST_HIDDEN, 0.2, Dash.FINE),
    CoastState.LAND_BEHIND: (Tone.COAST_LAND_BEHIND, 0.75, Dash.FINE),
    CoastState.IN_SIGHT: (Tone.COAST_IN_SIGHT, 0.75, Dash.SOLID),
}
"""From back to front. What is not swept or not known is drawn as ``OUTSIDE``."""


_WORST_TO_BEST = (
    CoastState.HIDDEN,
    CoastState.UNKNOWN,
    CoastState.LAND_BEHIND,
    CoastState.IN_SIGHT,
)


def coast_lines(frame: StripFrame, line: LegLine, land: LandModel) -> list[LineString]:
    """Coast within the strip, in plain millimetres; whole rings stay closed."""
    found: list[LineString] = []
    box = near_strip(frame, line)
    for coast_line in land.coast.lines:
        near = box.holds(coast_line.lat_deg, coast_line.lon_deg)
        if not near.any():
            continue
        # One neighbour on each side, so that a line that leaves the box is cut and not lost.
        wide = near.copy()
        wide[1:] |= near[:-1]
        wide[:-1] |= near[1:]
        if coast_line.is_closed:
            wide[0] = wide[-1] = wide[0] or wide[-1]
        edges = np.flatnonzero(np.diff(np.concatenate([[False], wide, [False]]).astype(np.int8)))
        # All places at once: pieces that share a vertex must meet exactly.
        plain = np.full((near.size, 2), np.nan)
        plain[wide] = plain_places(frame, line, coast_line.lat_deg[wide], coast_line.lon_deg[wide])
        if coast_line.is_closed:
            plain[-1] = plain[0]
        for start, stop in zip(edges[::2], edges[1::2], strict=True):
            if stop - start >= 2:
                found.append(LineString(plain[start:stop]).simplify(SIMPLIFY_MM))
    return found


def _best_states(land: LandModel, coverage: LegCoverage) -> ByteArray:
    """How each coast point stands to the leg: the best over the viewpoints on the track.

    It is called hidden only where some viewpoint found it so and from none it is unknown. Where
    the radar was worked out and land behind a point paints, the point itself does not.
    """
    edge = coverage.painted_edge
    if edge is not None:
        best = edge.state.copy()
        best[best == int(CoastPaint.PAINTED_BEHIND)] = int(CoastState.HIDDEN)
    else:
        best = np.full(land.points.lat_deg.shape, int(CoastState.OUTSIDE), dtype=np.uint8)
        states = [v.coast_state for v in coverage.on_track() if v.coast_state.size == best.size]
        for wanted in _WORST_TO_BEST:
            for state in states:
                best[state == int(wanted)] = int(wanted)
    best[best == int(CoastState.UNKNOWN)] = int(CoastState.OUTSIDE)
    return best


def coast_strokes(
    frame: StripFrame,
    line: LegLine,
    land: LandModel,
    coverage: LegCoverage,
    lines: list[LineString],
) -> Iterator[Stroke]:
    """The coast, each stretch in the style of how it stands to the leg; the strongest last.

    Where the radar was worked out the strongest is the painted edge, at its own place.
    """
    points, edge = land.points, coverage.painted_edge
    near = np.flatnonzero(near_strip(frame, line).holds(points.lat_deg, points.lon_deg))
    states = _best_states(land, coverage)[near]
    places = plain_places(frame, line, points.lat_deg[near], points.lon_deg[near])
    tree = shapely.STRtree(shapely.points(places) if near.size else [])
    moved = MovedCoast(frame, line, points, edge, near, places) if edge is not None else None
    found: dict[CoastState, list[LineString]] = {state: [] for state in COAST_STYLES}
    window = window_of(frame)
    for coast_line in lines:
        cut = coast_line.intersection(window)
        for part in shapely.get_parts(shapely.segmentize(cut, _COAST_STEP_MM)):
            if not isinstance(part, LineString) or part.length < 0.05:
                continue
            for state, stretch in _stretches(part, tree, states):
                if moved is None or state is not CoastState.IN_SIGHT:
                    found[state].append(stretch)
            if moved is not None:
                corners = np.asarray(part.coords)
                nearest = nearest_points(tree, corners, _COAST_REACH_MM)
                found[CoastState.IN_SIGHT].extend(moved.lines(corners, nearest))
    for state, (tone, width, dash) in COAST_STYLES.items():
        for stretch in found[state]:
            for half in halves(frame, stretch.simplify(SIMPLIFY_MM)):
                for piece in shapely.get_parts(half):
                    if isinstance(piece, LineString):
                        corners_of = tuple((float(x), float(y)) for x, y in piece.coords)
                        yield Stroke(
                            points=corners_of,
                            width_mm=width,
                            tone=tone,
                            dash=dash,
                            reference=f"coast:{state.name.lower()}",
                        )


def _stretches(
    part: LineString, tree: shapely.STRtree, states: ByteArray
) -> Iterator[tuple[CoastState, LineString]]:
    """A line broken where the state of the nearest coast point changes."""
    places = np.asarray(part.coords)
    nearest = nearest_points(tree, (places[1:] + places[:-1]) / 2.0, _COAST_REACH_MM)
    found = np.full(nearest.size, int(CoastState.OUTSIDE), dtype=np.int64)
    found[nearest >= 0] = states[nearest[nearest >= 0]]
    breaks = np.flatnonzero(np.diff(found)) + 1
    for start, stop in zip(
        np.concatenate([[0], breaks]), np.concatenate([breaks, [found.size]]), strict=True
    ):
        yield CoastState(int(found[start])), LineString(places[start : stop + 1])
