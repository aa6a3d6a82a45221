"""Places on a leg that own ship is moved to step by step."""

from collections.abc import Sequence

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
