"""Objects of one leg: what lies in reach, how it is seen, where it could be used."""

import math
from dataclasses import dataclass, replace

import numpy as np

from core.geodesy.leg_line import LegLine
from core.land.land_model import LandModel
from core.passage.motion import LegMotion
from core.passage.passage import Leg
from core.plan.blind_sectors import CourseSector
from core.plan.feature import Feature
from core.plan.headlands import headlands
from core.plan.leg_frame import LegFrame, leg_frame
from core.plan.leg_sight import LegSight
from core.plan.mark_sites import is_under_a_mark
from core.plan.ranking import LegTerms, Rank, rank
from core.plan.rules import PlanRules
from core.plan.turn_plan import TurnPlan
from core.plan.usable_window import (
    FeatureTrack,
    ScaleSpan,
    Setting,
    UsableWindow,
    track_window,
)

_SAME_HEADLAND_M = 300.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LegField:
    """One leg with everything in reach that could be indexed."""

    leg_index: int
    leg: Leg
    line: LegLine
    speed_mps: float
    """Over the ground."""
    motion: LegMotion
    turn_plan: TurnPlan
    sight: LegSight
    tracks: tuple[FeatureTrack, ...]
    settings: tuple[Setting, ...]
    near_m: float
    """What lies this near to an edge point counts as it: one elevation cell or 100 m."""
    frame: LegFrame
    sectors: tuple[CourseSector, ...]
    """Blind and shadow sectors of the main radar as the ship is loaded now, about the course."""
    beam_deg: float
    """Horizontal beamwidth of the main radar."""

    @property
    def corridor_port_m(self) -> float:
        """Corridor to port, m."""
        return self.leg.corridor_port_m or 0.0

    @property
    def corridor_starboard_m(self) -> float:
        """Corridor to starboard, m."""
        return self.leg.corridor_starboard_m or 0.0

    @property
    def corridor_m(self) -> float:
        """The narrower side of the corridor, m."""
        return min(self.corridor_port_m, self.corridor_starboard_m)

    def corridor_towards_m(self, *, is_starboard: bool) -> float:
        """The corridor on one side, m."""
        return self.corridor_starboard_m if is_starboard else self.corridor_port_m

    @property
    def end_m(self) -> float:
        """Where indexing ends, m along."""
        return self.turn_plan.end_m

    def echo_m(self, scale_m: float, rules: PlanRules) -> float:
        """How far apart two echoes are told apart on a scale, half-way out on the screen, m."""
        beams_deg = rules.same_echo_beams_ratio * self.beam_deg
        return math.radians(beams_deg) * scale_m / 2.0

    def uniform(self, setting: Setting) -> tuple[ScaleSpan, ...]:
        """One setting all the way to the wheel-over."""
        return (ScaleSpan(from_along_m=0.0, to_along_m=self.end_m, setting=setting),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A feature that can be used on a leg."""

    track: FeatureTrack
    window: UsableWindow
    rank: Rank

    @property
    def key(self) -> str:
        """Key of the feature."""
        return self.track.feature.key


class HeadlandRegister:
    """Headlands found so far: the same one seen from two legs is one object."""

    def __init__(self, land: LandModel) -> None:
        self._land = land
        self._known: dict[int, list[tuple[float, float, Feature]]] = {}

    def same_or_new(self, feature: Feature) -> Feature:
        """The feature under the key of an earlier one on the same coast close by, if any."""
        point = int(feature.key.removeprefix("point "))
        lat, lon = _tip(self._land, feature)
        known = self._known.setdefault(int(self._land.points.line[point]), [])
        for other_lat, other_lon, other in known:
            north = (lat - other_lat) * 111_000.0
            turn = (lon - other_lon + 180.0) % 360.0 - 180.0
            east = turn * 111_000.0 * float(np.cos(np.radians(lat)))
            if np.hypot(north, east) <= _SAME_HEADLAND_M:
                return replace(feature, key=other.key)
        known.append((lat, lon, feature))
        return feature


def tracks_of(
    line: LegLine,
    land: LandModel,
    sight: LegSight,
    *,
    islets: tuple[Feature, ...],
    islet_keys: frozenset[str],
    marks: tuple[Feature, ...],
    register: HeadlandRegister,
    reach_m: float,
    rules: PlanRules,
) -> tuple[LegFrame, tuple[FeatureTrack, ...]]:
    """Islets, headlands and marks within reach of a leg, in a fixed order.

    ``islet_keys`` are the keys of every small coast line, known well enough to be an islet or
    not: none of them has headlands.
    """
    frame = leg_frame(line, land, reach_m)
    near_lines = {int(n) for n in np.unique(land.points.line[frame.near])}
    features = [f for f in islets if int(f.key.removeprefix("line ")) in near_lines]
    seen_keys: set[str] = set()
    for found in headlands(frame, land, rules, islet_keys=islet_keys):
        headland = register.same_or_new(found)
        if headland.key in seen_keys or is_under_a_mark(*_tip(land, found), marks, land, rules):
            continue
        seen_keys.add(headland.key)
        features.append(headland)
    tracks = [_track(feature, line, sight) for feature in (*features, *marks)]
    return frame, tuple(
        t
        for t in tracks
        if float(np.abs(t.cross_m).min()) <= reach_m
        and float(t.along_m.max()) >= -reach_m
        and float(t.along_m.min()) <= line.length_m + reach_m
    )


def _tip(land: LandModel, headland: Feature) -> tuple[float, float]:
    """Latitude and longitude of the point of the coast that a headland is known by, deg."""
    point = int(headland.key.removeprefix("point "))
    return float(land.points.lat_deg[point]), float(land.points.lon_deg[point])


def _track(feature: Feature, line: LegLine, sight: LegSight) -> FeatureTrack:
    along, cross = line.track_coordinates(feature.lat_deg, feature.lon_deg)
    return FeatureTrack(feature=feature, along_m=along, cross_m=cross, sight=sight.of(feature))


def windows_on(
    field: LegField, spans: tuple[ScaleSpan, ...], rules: PlanRules
) -> dict[str, UsableWindow]:
    """Windows of all fixed features on given settings, by key; those without any left out.

    An object nearer to the track than ``rules.least_cross_m`` is a danger, not an index object.
    """
    found: dict[str, UsableWindow] = {}
    for track in field.tracks:
        if not track.feature.is_fixed:
            continue
        window = track_window(
            track,
            field.sight,
            spans=spans,
            near_m=field.near_m,
            rules=rules,
            sectors=field.sectors,
        )
        if window is None or abs(window.edge.cross_m) < rules.least_cross_m:
            continue
        if window.windows:
            found[track.feature.key] = window
    return found


def ranked(
    field: LegField,
    windows: dict[str, UsableWindow],
    *,
    limit_m: float,
    echo_m: float,
    leg_counts: dict[str, int],
    chosen: frozenset[str],
    rules: PlanRules,
) -> tuple[Candidate, ...]:
    """Candidates, best first; weak ones after all others."""
    terms = LegTerms(end_m=field.end_m, corridor_m=field.corridor_m, limit_m=limit_m, echo_m=echo_m)
    found = [
        Candidate(
            track=track,
            window=windows[track.feature.key],
            rank=rank(
                track.feature,
                windows[track.feature.key],
                terms=terms,
                leg_count=leg_counts.get(track.feature.key, 1),
                is_chosen=track.feature.key in chosen,
                rules=rules,
            ),
        )
        for track in field.tracks
        if track.feature.key in windows
    ]
    return tuple(
        sorted(found, key=lambda c: (c.rank.is_weak, -c.rank.score, c.window.edge.along_m, c.key))
    )
