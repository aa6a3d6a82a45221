"""A thing on the shore that an index line may be laid on, before any leg is looked at."""

from dataclasses import dataclass

from core.base.arrays import FloatArray, HoldsArrays, IntArray
from core.plan.plan_result import Mark, ObjectKind


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Feature(HoldsArrays):
    """An islet, a headland or a mark with its waterline.

    ``lat_deg`` and ``lon_deg`` (n,) are the places of its waterline; ``point_index`` (n,) are
    their numbers among the coast points of the land model, empty for a mark.
    """

    key: str
    """Unique within one plan; letters are given later."""
    kind: ObjectKind
    lat_deg: FloatArray
    lon_deg: FloatArray
    point_index: IntArray
    height_m: float
    slope_ratio: float | None
    """Steepness of the shore at its edge, rise over run; None where it is not known."""
    extent_m: float
    rounding_m: float
    """Radius of the waterline at the edge, m; small for a sharp tip."""
    isolation_m: float | None
    """Distance to the next other coast; None where that says nothing."""
    mark: Mark | None = None

    @property
    def is_fixed(self) -> bool:
        """Whether it stays where it is."""
        return self.mark is None or self.mark.is_fixed
