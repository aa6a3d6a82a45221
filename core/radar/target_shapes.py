"""Radar cross-sections of plain shapes and of ships (handbook 7.1, 7.3)."""

import math


def sphere_m2(radius_m: float) -> float:
    """Of a sphere large beside the wave, m2."""
    return math.pi * radius_m**2


def flat_plate_m2(area_m2: float, wavelength_m: float) -> float:
    """Of a flat plate square to the ray, m2."""
    return 4.0 * math.pi * area_m2**2 / wavelength_m**2


def dihedral_m2(width_m: float, height_m: float, wavelength_m: float) -> float:
    """Of two plates meeting at a right angle, at best, m2."""
    return 8.0 * math.pi * width_m**2 * height_m**2 / wavelength_m**2


def triangular_corner_m2(edge_m: float, wavelength_m: float) -> float:
    """Of a corner reflector of three triangles, at best, m2: ``4 pi a^4 / (3 lambda^2)``."""
    return 4.0 * math.pi * edge_m**4 / (3.0 * wavelength_m**2)


def triangular_corner_plate_m2(edge_m: float) -> float:
    """Area of the flat plate that sends back as much as that corner, m2: ``a^2 / sqrt 3``."""
    return edge_m**2 / math.sqrt(3.0)


def square_corner_m2(edge_m: float, wavelength_m: float) -> float:
    """Of a corner reflector of three squares, at best, m2: ``12 pi a^4 / lambda^2``."""
    return 12.0 * math.pi * edge_m**4 / wavelength_m**2


def lens_m2(radius_m: float, wavelength_m: float) -> float:
    """Of a lens reflector with a mirrored back, m2: ``4 pi^3 a^4 / lambda^2``."""
    return 4.0 * math.pi**3 * radius_m**4 / wavelength_m**2


def at_frequency_m2(rcs_m2: float, known_hz: float, wanted_hz: float) -> float:
    """Of a flat or cornered reflector at another frequency, m2: it goes with f^2."""
    return rcs_m2 * (wanted_hz / known_hz) ** 2


def ship_m2(displacement_kt: float, frequency_hz: float) -> float:
    """Median of a ship seen low, bow, stern and sides together, m2.

    ``52 f^0.5 D^1.5``, f in MHz and D in thousands of tonnes (Skolnik, from memory). Broadside
    6 to 10 dB more, end on 5 to 8 dB less (from memory).
    """
    return float(52.0 * math.sqrt(frequency_hz / 1e6) * displacement_kt**1.5)
