"""Places on a leg that own ship is moved to step by step."""

from collections.abc import Sequence

from core.plan.outcome import Outcome

_HERE_M = 1.0


def stepped_m(places_m: Sequence[float], here_m: float, steps: int) -> float:
    """The place so many steps ahead, negative astern, m; the farthest one where there are fewer.

    Parameters
    ----------
    places_m : sequence of float
        From the start of the leg, in order.
    here_m : float
        Where own ship is; returned where nothing lies that way.
    """
    if steps > 0:
        ahead = [place for place in places_m if place > here_m + _HERE_M]
        return ahead[min(steps, len(ahead)) - 1] if ahead else here_m
    astern = [place for place in places_m if place < here_m - _HERE_M]
    return astern[-min(-steps, len(astern))] if steps and astern else here_m


def stops_m(outcome: Outcome | None, leg_index: int, length_m: float) -> list[float]:
    """Ends of a leg and, once there is a plan, its viewpoints on the track, m, in order."""
    if length_m == 0.0:
        return []
    stops = {0.0, length_m}
    if outcome is not None:
        leg = outcome.coverage.legs[leg_index]
        stops |= {v.viewpoint.along_m for v in leg.on_track()}
    return sorted(stops)
