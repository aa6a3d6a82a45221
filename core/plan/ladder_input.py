"""The echoes of a leg as the tune check chooses from them."""

import math

import numpy as np

from core.coverage.first_paint_result import LegPaints, MustNotPaint
from core.geodesy.position import Position
from core.plan.blind_sectors import is_blind
from core.plan.candidates import LegField
from core.plan.tune_result import LadderEcho


def ladder_echoes(
    paints: LegPaints | None,
    field: LegField,
    places: dict[str, tuple[str, Position]],
    doubtful: frozenset[str] = frozenset(),
) -> tuple[LadderEcho, ...] | None:
    """Every object at every place along the track from which it echoes or must not.

    Parameters
    ----------
    paints : LegPaints or None
        None where no radar was worked out.
    field : LegField
        The leg, with the main radar's blind sectors.
    places : dict
        Name and position by id of the objects that count: one that floats may be off station.
    doubtful : frozenset of str
        Those of them that may lie under water.
    """
    if paints is None:
        return None
    echoes = paints.echoes
    hidden: dict[str, list[MustNotPaint]] = {}
    for item in paints.must_not:
        hidden.setdefault(item.object_id, []).append(item)
    _lat, _lon, course_deg = field.line.at(echoes.along_m)
    found = []
    for t, object_id in enumerate(echoes.object_ids):
        if object_id not in places:
            continue
        name, position = places[object_id]
        for p, along_m in enumerate(echoes.along_m):
            margin_db = float(echoes.margin_db[p, t])
            masks = [
                item
                for item in hidden.get(object_id, ())
                if item.begins.along_m <= along_m <= item.ends.along_m
            ]
            if not masks and not np.isfinite(margin_db):
                continue
            bearing_deg = float(echoes.bearing_deg[p, t])
            found.append(
                LadderEcho(
                    object_id=object_id,
                    name=name,
                    position=position,
                    along_m=float(along_m),
                    range_m=float(echoes.range_m[p, t]),
                    bearing_deg=bearing_deg,
                    margin_db=None if masks else margin_db,
                    is_masked_by_land=bool(masks),
                    masked_by=masks[0].masked_by if masks else "",
                    in_blind_sector=is_blind(
                        ahead_m=math.cos(math.radians(bearing_deg - float(course_deg[p]))),
                        cross_m=math.sin(math.radians(bearing_deg - float(course_deg[p]))),
                        sectors=field.sectors,
                    ),
                    is_doubtful=object_id in doubtful,
                )
            )
    return tuple(found)
