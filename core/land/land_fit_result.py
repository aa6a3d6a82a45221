"""How land files serve a passage; light, so that the window can hold it."""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class LegFit:
    """How much of the waters round a leg, from 1, files cover: shares, 0 to 1."""

    leg_number: int
    heights_fraction: float
    coast_fraction: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LandFit:
    """What of a shelf serves a passage."""

    paths: tuple[Path, ...]
    """Files that cover some of it, heights before coast."""
    kinds: tuple[str, ...]
    """``elevation`` or ``coast``, by file."""
    shares: tuple[float, ...]
    """Of its waters, by file."""
    legs: tuple[LegFit, ...]

    @property
    def heights_share(self) -> float:
        """Mean over the legs."""
        return sum(leg.heights_fraction for leg in self.legs) / len(self.legs) if self.legs else 0.0

    @property
    def coast_share(self) -> float:
        """Mean over the legs."""
        return sum(leg.coast_fraction for leg in self.legs) / len(self.legs) if self.legs else 0.0
