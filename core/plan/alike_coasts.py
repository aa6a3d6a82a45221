"""Which coasts of a passage could be taken for another: at landfalls and where each leg begins.

At a landfall the position may be miles out; on other legs only places near by are looked at.
"""

from functools import partial

from core.base.findings import Finding, Severity, Where
from core.base.language import tr, tr_n
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Progress
from core.base.units import m_from_nm, nm_from_m
from core.coverage.coverage_result import Coverage, ViewpointCoverage
from core.coverage.echo_signature import EchoSignature, signature_of
from core.coverage.leg_threads import Alive, leg_by_leg
from core.coverage.look_alike import (
    LEAST_ECHOES,
    land_blocks,
    look_alikes,
)
from core.coverage.look_alike_result import LookAlike
from core.coverage.nearby import blocks_of
from core.coverage.place import Lookout
from core.coverage.terrain import prepare_terrain
from core.land.land_model import LandModel

_LANDFALL_REACH_M = m_from_nm(12.0)
_COASTAL_REACH_M = m_from_nm(4.0)
"""How far off the position may be thought to be (common practice, no source)."""
_LANDFALL_AFTER_M = m_from_nm(10.0)
"""So far without land that paints, the next that does is a landfall."""

_Place = tuple[ViewpointCoverage, EchoSignature, float]
"""Whence, what paints, and how far round it look-alikes are looked for, m."""


def alike_coasts(
    land: LandModel, coverage: Coverage, progress: Progress, memory: Memory = NOTHING_KEPT
) -> tuple[tuple[LookAlike, ...], ...]:
    """Look-alikes of the picture at one place of each leg, leg by leg, the likest first.

    Parameters
    ----------
    land : LandModel
        Land in reach.
    coverage : Coverage
        What paints from each viewpoint; without a radar there is nothing to compare.
    progress : Progress
        Told leg by leg.

    Raises
    ------
    Cancelled
        A stop was asked for.
    """
    places = _places(land, coverage)
    if coverage.budget is None or not any(places):
        return tuple(() for _ in coverage.legs)
    blocks = land_blocks(land)
    lookout = Lookout(
        land, prepare_terrain(land), blocks_of(land), coverage.settings, coverage.budget
    )

    def alike(place: _Place | None, alive: Alive) -> tuple[LookAlike, ...]:
        alive()
        if place is None:
            return ()
        view, here, reach_m = place
        at = view.viewpoint
        # What paints there follows from the place.
        return memory.of(
            ("alike", land, coverage.settings, coverage.budget, at.position, at.along_m, reach_m),
            lambda: look_alikes(here, land, blocks, lookout, along_m=at.along_m, reach_m=reach_m),
        )

    return tuple(
        leg_by_leg([partial(alike, place) for place in places], progress, tr("Look-alike coasts"))
    )


def alike_findings(alikes: tuple[tuple[LookAlike, ...], ...]) -> tuple[Finding, ...]:
    """One finding a leg, of the likest place."""
    findings = []
    for index, own in enumerate(alikes):
        if not own:
            continue
        likest = own[0]
        more = (
            tr_n(", 1 more such place", ", {count} more such places", len(own) - 1)
            if len(own) > 1
            else ""
        )
        findings.append(
            Finding(
                severity=Severity.CHECK,
                code="look-alike-coast",
                what=(
                    tr(
                        "{along_nm:.1f} NM along, the coast is expected to paint "
                        "{likeness_ratio:.0%} like it does {off_nm:.1f} NM to the "
                        "{bearing_deg:03d}° T of there{more}",
                        along_nm=nm_from_m(likest.along_m),
                        likeness_ratio=likest.likeness_ratio,
                        off_nm=nm_from_m(likest.distance_m),
                        bearing_deg=round(likest.bearing_deg) % 360,
                        more=more,
                    )
                ),
                where=Where(leg_number=index + 1),
                todo=tr("Identify land by more than its shape: ranges, depth, a racon or a light"),
            )
        )
    return tuple(findings)


def _places(land: LandModel, coverage: Coverage) -> tuple[_Place | None, ...]:
    """Of each leg the first place from which enough paints, with the reach for it."""
    places: list[_Place | None] = []
    bare_m = 0.0
    for leg in coverage.legs:
        chosen: _Place | None = None
        last_m = 0.0
        for view in leg.on_track():
            along_m = view.viewpoint.along_m
            bare_m += along_m - last_m
            last_m = along_m
            here = _signature(land, view)
            if here is None or here.echo_count < LEAST_ECHOES:
                continue
            if chosen is None:
                is_landfall = bare_m >= _LANDFALL_AFTER_M
                reach_m = _LANDFALL_REACH_M if is_landfall else _COASTAL_REACH_M
                chosen = view, here, reach_m
            bare_m = 0.0
        places.append(chosen)
    return tuple(places)


def _signature(land: LandModel, view: ViewpointCoverage) -> EchoSignature | None:
    if view.paint is None:
        return None
    return signature_of(land.points, view.paint, view.viewpoint.position)
