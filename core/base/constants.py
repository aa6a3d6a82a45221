"""Physical constants, each with its unit in the name and its source."""

NAUTICAL_MILE_M = 1852.0
"""International nautical mile, exact by definition."""

EARTH_RADIUS_M = 6_371_000.0
"""Mean radius used for the effective Earth, m (drop d^2 / (2 k R) everywhere)."""

STANDARD_REFRACTION_K = 4.0 / 3.0
"""Effective Earth radius factor of the standard atmosphere, bare (ITU-R P.310, from memory)."""

STRONG_REFRACTION_K = 2.0
"""Highest factor searched for an earliest possible first sight, bare (super-refraction)."""

UNKNOWN_HEIGHT_ASSUMED_M = 50.0
"""Height above water given to a cell of unknown height when asking whether it could matter."""
