"""Which leg of a passage leads to the anchorage."""

from core.passage.passage import Passage
from core.plan.anchoring_result import Anchorage


def anchor_leg_index(passage: Passage, anchorage: Anchorage) -> int | None:
    """The leg that ends where she anchors, from 0; None where no leg ends at such a waypoint."""
    if not anchorage.waypoint.strip():
        return len(passage.legs) - 1
    wanted = anchorage.waypoint.strip().casefold()
    names = [waypoint.name.strip().casefold() for waypoint in passage.waypoints]
    return next((i - 1 for i, name in enumerate(names) if i > 0 and name == wanted), None)
