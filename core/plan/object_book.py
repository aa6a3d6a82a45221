"""Letters and names of all objects of a passage."""

from dataclasses import dataclass

import numpy as np

from core.geodesy.position import Position
from core.passage.passage import Passage
from core.plan.candidates import LegField
from core.plan.feature import Feature
from core.plan.known_objects import all_known, kept_letters, place_of
from core.plan.leg_survey import LegSurvey
from core.plan.lettering import letters_for, object_name, place_name
from core.plan.mark_objects import mark_features
from core.plan.peaks import Peak
from core.plan.plan_result import Edge, IndexObject, KnownObject, Mark, ObjectKind
from core.plan.usable_window import EdgePoint, FeatureTrack
from core.plan.wheel_over import ObjectMaker


@dataclass(frozen=True, slots=True, kw_only=True)
class ObjectBook:
    """Letters and names of every object, by feature key."""

    ids: dict[str, str]
    names: dict[str, str]
    leg_counts: dict[str, int]
    """On how many legs each is a candidate."""
    objects: tuple[IndexObject, ...]
    """On land by letter, then marks, then peaks."""
    known: tuple[KnownObject, ...]
    """Lettered objects now, and those of earlier plans whose letters stay reserved."""
    are_letters_kept: bool
    """Whether any letter is not the one a first plan would give."""

    def maker(self) -> ObjectMaker:
        """Turns a feature and its edge point into the printed object."""

        def make(track: FeatureTrack, edge: EdgePoint) -> IndexObject:
            key = track.feature.key
            return _object(track.feature, edge, object_id=self.ids[key], name=self.names[key])

        return make


def object_book(
    passage: Passage,
    marks: tuple[Mark, ...],
    peaks: tuple[Peak, ...],
    fields: tuple[LegField, ...],
    surveys: tuple[LegSurvey, ...],
    before: tuple[KnownObject, ...] = (),
) -> ObjectBook:
    """Give every object a letter: by first leg, then along it; marks keep their names.

    Peaks are ``P1``, ``P2`` and so on, highest first. What an earlier plan knew (``before``)
    keeps its letter wherever it is found again; its other letters go to nothing else.
    """
    first_places: dict[str, tuple[int, float, float, float]] = {}
    first_edges: dict[str, EdgePoint] = {}
    features: dict[str, Feature] = {}
    leg_counts: dict[str, int] = {}
    for field, survey in zip(fields, surveys, strict=True):
        by_key = {track.feature.key: track.feature for track in field.tracks}
        for key in survey.candidate_keys:
            leg_counts[key] = leg_counts.get(key, 0) + 1
        for key, edge in survey.edges:
            if key in features:
                continue
            features[key], first_edges[key] = by_key[key], edge
            along, _cross = field.line.track_coordinates(
                np.array([edge.position.lat_deg]), np.array([edge.position.lon_deg])
            )
            first_places[key] = (
                field.leg_index,
                round(float(along[0]), 1),
                edge.position.lat_deg,
                edge.position.lon_deg,
            )
    taken = frozenset(mark.name.upper() for mark in marks)
    before = tuple(thing for thing in before if thing.id.upper() not in taken)
    places = {k: (features[k].kind, place_of(features[k])) for k in first_places}
    on_land = {k: place for k, place in first_places.items() if features[k].mark is None}
    ids, are_kept = _letters(on_land, places, before, taken)
    names = {k: object_name(features[k], first_edges[k].position, passage) for k in ids}
    objects = [_object(features[k], first_edges[k], object_id=ids[k], name=names[k]) for k in ids]
    known = [KnownObject(id=ids[k], kind=places[k][0], position=places[k][1]) for k in ids]
    for feature in mark_features(marks):
        if feature.mark is None:
            continue
        ids[feature.key] = names[feature.key] = feature.mark.name
        edge = _place_edge(feature.mark.position)
        objects.append(_object(feature, edge, object_id=feature.mark.name, name=feature.mark.name))
    peak_ids = _peak_numbers(peaks, before, taken)
    are_kept |= peak_ids != _peak_numbers(peaks, (), taken)
    for peak, peak_id in zip(peaks, peak_ids, strict=True):
        ids[f"peak {peak_id.removeprefix('P')}"] = peak_id
        objects.append(_peak_object(peak, peak_id, passage))
        known.append(KnownObject(id=peak_id, kind=ObjectKind.PEAK, position=peak.position))
    return ObjectBook(
        ids=ids,
        names=names,
        leg_counts=leg_counts,
        objects=tuple(objects),
        known=all_known(known, before),
        are_letters_kept=are_kept,
    )


def _letters(
    on_land: dict[str, tuple[int, float, float, float]],
    places: dict[str, tuple[ObjectKind, Position]],
    before: tuple[KnownObject, ...],
    taken: frozenset[str],
) -> tuple[dict[str, str], bool]:
    """Letters of objects on land, in order of their letters; whether any is an old one."""
    first = letters_for(on_land, taken)
    kept = kept_letters({k: places[k] for k in on_land}, before)
    new = letters_for(
        {k: place for k, place in on_land.items() if k not in kept},
        taken | {thing.id for thing in before},
    )
    letters = {**kept, **new}
    in_order = sorted(letters, key=lambda k: (len(letters[k]), letters[k]))
    return {k: letters[k] for k in in_order}, letters != first


def _peak_numbers(
    peaks: tuple[Peak, ...], before: tuple[KnownObject, ...], taken: frozenset[str]
) -> tuple[str, ...]:
    """``P1``, ``P2`` and so on, those known before under their old number."""
    found = {str(i): (ObjectKind.PEAK, peak.position) for i, peak in enumerate(peaks)}
    kept = kept_letters(found, before)
    used = taken | {thing.id for thing in before}
    numbers = []
    number = 0
    for i in range(len(peaks)):
        if str(i) in kept:
            numbers.append(kept[str(i)])
            continue
        number += 1
        while f"P{number}" in used:
            number += 1
        numbers.append(f"P{number}")
    return tuple(numbers)


def _object(feature: Feature, edge: EdgePoint, *, object_id: str, name: str) -> IndexObject:
    return IndexObject(
        id=object_id,
        name=name,
        position=edge.position,
        edge=edge.edge,
        kind=feature.kind,
        height_above_water_m=feature.height_m,
        is_fixed=feature.is_fixed,
        confirm_on_chart=feature.mark is None or not feature.mark.is_on_chart,
    )


def _peak_object(peak: Peak, object_id: str, passage: Passage) -> IndexObject:
    return IndexObject(
        id=object_id,
        name=f"peak {peak.height_m:.0f} m high, {place_name(peak.position, passage)}",
        position=peak.position,
        edge=Edge.POSITION,
        kind=ObjectKind.PEAK,
        height_above_water_m=peak.height_m,
        is_fixed=True,
        confirm_on_chart=True,
    )


def _place_edge(position: Position) -> EdgePoint:
    return EdgePoint(position=position, edge=Edge.POSITION, along_m=0.0, cross_m=0.0)
