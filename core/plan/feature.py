"""A thing on the shore that an index line may be laid on, before any leg is looked at."""

from dataclasses import dataclass

from core.base.arrays import FloatArray, HoldsArrays, IntArray
from core.plan.plan_result import Mark, ObjectKind
from core.plan.shore_rise import ShoreRise


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
    rise: ShoreRise | None
    """How its shore rises from the water; None where that is not known."""
    extent_m: float
    rounding_m: float
    """Radius of the waterline at the edge, m; small for a sharp tip."""
    isolation_m: float | None
    """Distance to the next other coast; None where that says nothing."""
    mark: Mark | None = None
    site: str = ""
    """Key of the islet a mark stands on; empty for all else."""

    @property
    def echo(self) -> str:
        """What it shows as on a screen: two things of one name are one echo."""
        return self.site or self.key

    @property
    def is_fixed(self) -> bool:
        """Whether it stays where it is."""
        return self.mark is None or self.mark.is_fixed
