"""Letters and names of all objects of a passage."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from core.base.language import tr
from core.geodesy.position import Position
from core.passage.passage import Passage
from core.plan.candidates import LegField
from core.plan.feature import Feature
from core.plan.known_objects import all_known, kept_letters, known_place, moved_m, place_of
from core.plan.leg_survey import LegSurvey
from core.plan.lettering import (
    FirstPlace,
    letters_for,
    object_name,
    peak_numbers_for,
    place_name,
)
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
    """Lettered objects of earlier plans, found now or not, then the new ones."""
    moved_m: dict[str, float]
    """How far each id known before now lies from where it was given, m."""
    are_letters_kept: bool
    """Whether a first plan would give other letters or know fewer objects."""

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
    named: frozenset[str] = frozenset(),
    *,
    names: Mapping[str, str] | None = None,
) -> ObjectBook:
    """Give every object a letter: by first leg, then along it; marks keep their names.

    Peaks are ``P1``, ``P2`` and so on, highest first. What an earlier plan knew (``before``)
    keeps its letter wherever it is found again; its other letters go to nothing else. Only a
    mark of the officer's takes a known letter, as its name. A known object that a choice or a
    danger limit names (``named``, in small letters) stays one, however well others do. ``names``
    are those that objects have already, by id.
    """
    seen: dict[str, list[Feature]] = {}
    for field in fields:
        for track in field.tracks:
            if track.feature.mark is None:
                seen.setdefault(track.feature.key, []).append(track.feature)
    summits = {f"peak {i}": peak for i, peak in enumerate(peaks, 1)}
    places = {k: (same[0].kind, place_of(same)) for k, same in seen.items()} | {
        k: (ObjectKind.PEAK, known_place(peak.position.lat_deg, peak.position.lon_deg))
        for k, peak in summits.items()
    }
    names_of_marks = frozenset(mark.name.upper() for mark in marks)
    free = tuple(thing for thing in before if thing.id.upper() not in names_of_marks)
    kept = kept_letters(places, free)
    looks = _first_looks(fields, surveys)
    first = _as_known(_letters(looks, summits, {}, names_of_marks), places)
    wanted = {k for k in seen if k not in looks and kept.get(k, "").casefold() in named}
    looks |= _looks_at(wanted, fields, surveys)
    taken = names_of_marks | {thing.id.upper() for thing in before}
    ids = _letters(looks, summits, kept, taken)
    known = all_known(before, _as_known(ids, places))
    now = {ids[k]: places[k][1] for k in ids}
    given = names or {}
    called = {
        k: given.get(ids[k]) or object_name(looks[k].feature, looks[k].edge.position, passage)
        for k in ids
        if k in looks
    }
    objects = [
        _object(looks[k].feature, looks[k].edge, object_id=ids[k], name=called[k]) for k in called
    ]
    for feature in mark_features(marks):
        if feature.mark is None:
            continue
        ids[feature.key] = called[feature.key] = feature.mark.name
        now[feature.mark.name] = feature.mark.position
        edge = _place_edge(feature.mark.position)
        objects.append(_object(feature, edge, object_id=feature.mark.name, name=feature.mark.name))
    objects += [_peak_object(peak, ids[key], passage) for key, peak in summits.items()]
    return ObjectBook(
        ids=ids,
        names=called,
        leg_counts=Counter(key for survey in surveys for key in survey.candidate_keys),
        objects=tuple(objects),
        known=known,
        moved_m=moved_m(now, before),
        are_letters_kept=known != first,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """A feature on land as the first leg with a use for it sees it."""

    feature: Feature
    edge: EdgePoint
    place: FirstPlace


def _first_looks(fields: tuple[LegField, ...], surveys: tuple[LegSurvey, ...]) -> dict[str, _Look]:
    """Every feature on land that is worth a letter, by key."""
    looks: dict[str, _Look] = {}
    for field, survey in zip(fields, surveys, strict=True):
        by_key = {track.feature.key: track.feature for track in field.tracks}
        for key, edge in survey.edges:
            if key not in looks and by_key[key].mark is None:
                looks[key] = _look(field, by_key[key], edge)
    return looks


def _looks_at(
    keys: set[str], fields: tuple[LegField, ...], surveys: tuple[LegSurvey, ...]
) -> dict[str, _Look]:
    """The features of these keys that can be used on a leg, by key."""
    looks: dict[str, _Look] = {}
    for field, survey in zip(fields, surveys, strict=True):
        for track in field.tracks:
            key = track.feature.key
            windows = [found[key] for found in survey.windows if key in found]
            if windows and key in keys and key not in looks:
                looks[key] = _look(field, track.feature, windows[0].edge)
    return looks


def _look(field: LegField, feature: Feature, edge: EdgePoint) -> _Look:
    position = edge.position
    along, _cross = field.line.track_coordinates(
        np.array([position.lat_deg]), np.array([position.lon_deg])
    )
    place = (field.leg_index, round(float(along[0]), 1), position.lat_deg, position.lon_deg)
    return _Look(feature=feature, edge=edge, place=place)


def _letters(
    looks: dict[str, _Look],
    summits: Iterable[str],
    kept: dict[str, str],
    taken: frozenset[str],
) -> dict[str, str]:
    """Ids by key: objects on land in the order of their letters, then summits as they come."""
    letters = {k: kept[k] for k in looks if k in kept} | letters_for(
        {k: look.place for k, look in looks.items() if k not in kept}, taken
    )
    numbers = peak_numbers_for([k for k in summits if k not in kept], taken)
    in_order = sorted(letters, key=lambda k: (len(letters[k]), letters[k]))
    return {k: letters[k] for k in in_order} | {k: kept.get(k) or numbers[k] for k in summits}


def _as_known(
    ids: dict[str, str], places: dict[str, tuple[ObjectKind, Position]]
) -> tuple[KnownObject, ...]:
    return tuple(
        KnownObject(id=name, kind=places[k][0], position=places[k][1]) for k, name in ids.items()
    )


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
        name=tr(
            "peak {height_m:.0f} m high, {place}",
            height_m=peak.height_m,
            place=place_name(peak.position, passage),
        ),
        position=peak.position,
        edge=Edge.POSITION,
        kind=ObjectKind.PEAK,
        height_above_water_m=peak.height_m,
        is_fixed=True,
        confirm_on_chart=True,
    )


def _place_edge(position: Position) -> EdgePoint:
    return EdgePoint(position=position, edge=Edge.POSITION, along_m=0.0, cross_m=0.0)
