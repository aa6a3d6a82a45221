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

SPEED_OF_LIGHT_MPS = 299_792_458.0
"""Speed of light in vacuum, m/s, exact by definition."""

BOLTZMANN_J_PER_K = 1.380649e-23
"""Boltzmann's constant, J/K, exact by definition (SI 2019)."""

NOISE_TEMPERATURE_K = 290.0
"""Reference temperature of noise figures, K (by convention)."""
