"""Objects of a leg's lines that pass through blind sectors, and what to say about it."""

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import nm_from_m
from core.plan.blind_sectors import BlindSpan, blind_spans, blinded, sectors_about_course
from core.plan.candidates import Candidate, LegField
from core.plan.plan_result import BlindConflict, IndexLine, Role
from core.plan.usable_window import EdgePoint
from core.ship.ship import BlindSector, Ship

_ROLES = (Role.PRIMARY, Role.CHECK, Role.MARGIN)


def blind_conflicts_of(
    field: LegField,
    candidates: tuple[Candidate, ...],
    lines: tuple[IndexLine, ...],
    ids: dict[str, str],
    ship: Ship,
) -> tuple[BlindConflict, ...] | None:
    """Where the objects that lines are laid on stand in a sector, in order along the leg.

    Each object once, under the first role it has; None where the main radar states no sectors.
    Marks of the wheel-over are chosen clear of blind sectors, so they have no place here.
    """
    if not field.sectors:
        return None
    found = []
    for candidate in candidates:
        object_id = ids[candidate.key]
        used = {line.role for line in lines if line.object.id == object_id}
        role = next((role for role in _ROLES if role in used), None)
        if role is not None:
            found += [
                _conflict(field, span, object_id, role, candidate.window.edge, ship)
                for span in candidate.window.blind
            ]
    return tuple(sorted(found, key=lambda c: (c.from_along_m, c.object_id)))


def _conflict(
    field: LegField, span: BlindSpan, object_id: str, role: Role, edge: EdgePoint, ship: Ship
) -> BlindConflict:
    other = next(
        (
            radar.name
            for radar in ship.radars[1:]
            if not blinded(
                blind_spans(
                    along_m=edge.along_m,
                    cross_m=edge.cross_m,
                    sectors=sectors_about_course(radar.blind_sectors, field.motion),
                    within=(span.interval,),
                )
            )
        ),
        "",
    )
    return BlindConflict(
        object_id=object_id,
        role=role,
        radar=ship.radars[0].name,
        from_relative_deg=span.sector.from_relative_deg,
        to_relative_deg=span.sector.to_relative_deg,
        cause=span.sector.cause,
        is_shadow=span.sector.is_shadow,
        from_along_m=span.from_along_m,
        to_along_m=span.to_along_m,
        minutes=(span.to_along_m - span.from_along_m) / field.speed_mps / 60.0,
        other_radar=other,
    )


def blind_findings(conflicts: tuple[BlindConflict, ...], leg_number: int) -> tuple[Finding, ...]:
    """One finding for all index objects of a leg that are lost in blind sectors for a while."""
    lost = [c for c in conflicts if not c.is_shadow]
    if not lost:
        return ()
    parts = "; ".join(
        tr(
            "{object_id} from {from_nm:.2f} to {to_nm:.2f} NM along ({minutes:.1f} min, {sector})",
            object_id=c.object_id,
            from_nm=nm_from_m(c.from_along_m),
            to_nm=nm_from_m(c.to_along_m),
            minutes=c.minutes,
            sector=sector_words(c),
        )
        for c in lost
    )
    others = {c.other_radar for c in lost}
    read_on = others.pop() if len(others) == 1 else ""
    return (
        Finding(
            severity=Severity.CHECK,
            code="index-object-blind",
            what=tr("{radar} is blind to {objects}", radar=lost[0].radar, objects=parts),
            where=Where(leg_number=leg_number),
            todo=tr("Read it on {read_on} meanwhile", read_on=read_on)
            if read_on
            else tr(
                "Keep to the other line meanwhile, or open the sector by a few degrees of heading"
            ),
        ),
    )


def sector_words(conflict: BlindConflict) -> str:
    """The sector of a conflict, such as ``255° to 262° rel, aft mast``."""
    return words_of_sector(
        BlindSector(
            from_relative_deg=conflict.from_relative_deg,
            to_relative_deg=conflict.to_relative_deg,
            cause=conflict.cause,
        )
    )


def words_of_sector(sector: BlindSector) -> str:
    """A sector as it lies about the bow, with its cause."""
    cause = f", {sector.cause}" if sector.cause else ""
    return tr(
        "{from_relative_deg:03.0f}° to {to_relative_deg:03.0f}° rel{cause}",
        from_relative_deg=sector.from_relative_deg,
        to_relative_deg=sector.to_relative_deg,
        cause=cause,
    )
