"""How land files serve a passage; light, so that the window can hold it."""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class LegFit:
    """How much of the waters round a leg, from 1, files cover: shares, 0 to 1."""

    leg_number: int
    heights_fraction: float
    coast_fraction: float
    places: int = 1
    """How many places of its waters were looked at; a longer leg counts for more."""


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
        """Of all waters, as of a single file."""
        return self._share(tuple(leg.heights_fraction for leg in self.legs))

    @property
    def coast_share(self) -> float:
        """Of all waters, as of a single file."""
        return self._share(tuple(leg.coast_fraction for leg in self.legs))

    def _share(self, fractions: tuple[float, ...]) -> float:
        places = sum(leg.places for leg in self.legs)
        covered = sum(f * leg.places for f, leg in zip(fractions, self.legs, strict=True))
        return covered / places if places else 0.0
