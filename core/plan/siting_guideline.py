"""Blind sectors against the siting guideline for radar antennas: noted, never refused.

IMO SN.1/Circ.271 as restated in installation guidance (job.md 5.2 and 5.3, handbook 2.5; the
circular itself was not read).
"""

from core.base.findings import Finding, Severity
from core.base.language import tr
from core.radar.own_structure import sea_hidden_to_m
from core.ship.ship import BlindSector, Radar

_ABAFT_DEG = 112.5
"""No sector from right ahead to 22.5 deg abaft the beam, either side."""
_WIDEST_DEG = 5.0
_TOGETHER_DEG = 20.0
_JOINED_DEG = 3.0
_BOW_LENGTHS_RATIO = 2.0
_BOW_MOST_M = 500.0


def counted_sectors(sectors: tuple[BlindSector, ...]) -> tuple[tuple[float, float], ...]:
    """Blind sectors as the guideline counts them: those within 3 deg of each other are one.

    Returns
    -------
    tuple of (from_deg, to_deg)
        Relative, clockwise; ``from`` in [0, 360), ``to`` may pass 360. Shadow sectors do not
        count.
    """
    pairs = sorted(
        (s.from_relative_deg % 360.0, (s.to_relative_deg - s.from_relative_deg) % 360.0)
        for s in sectors
        if not s.is_shadow
    )
    joined: list[tuple[float, float]] = []
    for start, width in pairs:
        if joined and start <= joined[-1][1] + _JOINED_DEG:
            joined[-1] = (joined[-1][0], max(joined[-1][1], start + width))
        else:
            joined.append((start, start + width))
    if len(joined) > 1 and joined[0][0] + 360.0 <= joined[-1][1] + _JOINED_DEG:
        first = joined.pop(0)
        joined[-1] = (joined[-1][0], max(joined[-1][1], first[1] + 360.0))
    return tuple(joined)


def breaches_of(sectors: tuple[BlindSector, ...]) -> tuple[str, ...]:
    """What in a radar's blind sectors goes beyond the guideline, in words; empty where nothing."""
    counted = counted_sectors(sectors)
    words = []
    astern = []
    for start, stop in counted:
        name = tr(
            "{from_deg:03.0f}° to {to_deg:03.0f}° rel", from_deg=start % 360.0, to_deg=stop % 360.0
        )
        if _is_forward(start, stop):
            words.append(tr("{name} lies forward of 22.5° abaft the beam", name=name))
        else:
            astern.append(stop - start)
            if stop - start > _WIDEST_DEG:
                words.append(
                    tr("{name} is wider than {widest_deg:.0f}°", name=name, widest_deg=_WIDEST_DEG)
                )
    if sum(astern) > _TOGETHER_DEG:
        words.append(
            tr(
                "the sectors astern add up to more than {together_deg:.0f}°",
                together_deg=_TOGETHER_DEG,
            )
        )
    return tuple(words)


def _is_forward(start_deg: float, stop_deg: float) -> bool:
    """Whether any of an arc lies within 112.5 deg of the bow."""
    return not (start_deg >= _ABAFT_DEG and stop_deg <= 360.0 - _ABAFT_DEG)


def bow_limit_m(length_m: float) -> float:
    """Within this of the antenna the sight line over the bow should meet the sea, m."""
    return min(_BOW_MOST_M, _BOW_LENGTHS_RATIO * length_m)


def meets_sea_in_time(
    *, antenna_height_m: float, bow_height_m: float, bow_distance_m: float, length_m: float
) -> bool:
    """Whether the sight line over the bow, or over cargo before it, meets the sea soon enough."""
    reach_m = sea_hidden_to_m(antenna_height_m, bow_height_m, bow_distance_m)
    return reach_m <= bow_limit_m(length_m) + 1e-6


def siting_findings(radars: tuple[Radar, ...]) -> tuple[Finding, ...]:
    """One note for the ship, however many breaches."""
    parts = [
        f"{radar.name}: {', '.join(words)}"
        for radar in radars
        if (words := breaches_of(radar.blind_sectors))
    ]
    if not parts:
        return ()
    return (
        Finding(
            severity=Severity.NOTE,
            code="siting-guideline",
            what=tr(
                "blind sectors beyond the siting guideline, {reasons}", reasons="; ".join(parts)
            ),
            todo=tr("The plan counts with them as they are; check the sectors recorded on board"),
        ),
    )
