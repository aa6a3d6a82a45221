"""What the invented archipelago looks like: all places in NM east and north of its middle.

Every name is invented. A chain is a row of points (east, north, half width) that the shape of
an island is built round before the noise works on its coast.
"""

from dataclasses import dataclass

Chain = tuple[tuple[float, float, float], ...]


@dataclass(frozen=True)
class Island:
    """A large island with relief of its own."""

    name: str
    chain: Chain
    top_m: float
    """Height of its highest summit."""
    roughness_nm: float
    """How far noise moves its coast."""


@dataclass(frozen=True)
class Patch:
    """A stretch of country where something is different: weight 1 on the chain, 0 outside it."""

    chain: Chain


@dataclass(frozen=True)
class Islet:
    """A small island or rock."""

    name: str
    east_nm: float
    north_nm: float
    half_width_nm: float
    """Zero makes a rock of a single cell."""
    top_m: float
    stretch: float = 1.0
    """Length over width."""
    lie: tuple[float, float] = (1.0, 0.0)
    """East and north parts of its long axis, a unit vector."""


ISLANDS = (
    Island(
        name="Merrowan",
        chain=(
            (-7.0, 3.2, 1.1),
            (-5.2, 3.0, 1.7),
            (-2.2, 3.5, 2.5),
            (0.6, 4.4, 2.2),
            (2.8, 5.6, 2.0),
            (4.6, 6.6, 1.1),
        ),
        top_m=742.0,
        roughness_nm=0.62,
    ),
    Island(
        name="Quessal",
        chain=((2.3, -1.5, 1.0), (4.3, -0.6, 1.5), (6.2, 0.5, 1.2), (7.3, 1.5, 0.6)),
        top_m=388.0,
        roughness_nm=0.5,
    ),
    Island(
        name="Dorvane", chain=((9.3, 6.2, 0.75), (10.0, 7.0, 0.6)), top_m=214.0, roughness_nm=0.4
    ),
    Island(
        name="Ostrin", chain=((-9.9, -2.0, 0.55), (-9.3, -1.6, 0.45)), top_m=163.0, roughness_nm=0.3
    ),
)

CLIFFS = (
    Patch(chain=((-6.0, 6.0, 1.6), (-2.0, 6.8, 1.6), (1.5, 7.6, 1.6), (4.8, 8.6, 1.6))),
    Patch(chain=((6.0, 6.0, 1.5), (5.6, 7.6, 1.2))),
    Patch(chain=((-9.9, -2.0, 1.6), (-9.3, -1.6, 1.6))),
    Patch(chain=((9.3, 6.2, 1.6), (10.0, 7.0, 1.6))),
    Patch(chain=((5.0, -2.4, 1.2), (8.2, -0.2, 1.2))),
    Patch(chain=((-8.2, 4.2, 0.9), (-7.6, 4.6, 0.9))),
)
"""Where the sea has cut into high ground."""

PLAINS = (
    Patch(chain=((-3.6, 0.9, 1.1), (-1.6, 1.0, 1.4), (0.4, 1.9, 1.0))),
    Patch(chain=((1.7, -2.1, 0.8), (2.7, -2.4, 0.6))),
)
"""Flat, low ground along the shore with the hills behind it."""

SMOOTH_COASTS = (Patch(chain=((-4.4, 0.7, 0.9), (-1.6, 0.9, 1.3), (0.8, 1.9, 0.9))),)
"""Beaches, where noise does not move the coast."""

BAYS = (
    ((-8.2, 2.2, 0.5), (-7.3, 2.45, 0.52), (-6.5, 2.75, 0.42), (-5.9, 3.1, 0.28)),
    ((2.6, 3.1, 0.22), (2.2, 3.7, 0.26), (2.0, 4.2, 0.14)),
    ((-3.5, 6.7, 0.35), (-3.2, 5.9, 0.28), (-3.0, 5.4, 0.12)),
)
"""Chains of water cut out of the islands; the first one is hidden behind a headland."""

HOOKS = (((-7.0, 3.6, 0.5), (-8.0, 3.55, 0.42), (-8.55, 3.1, 0.3), (-8.7, 2.75, 0.2)),)
"""Chains of land added after the bays were cut: the headland that hides the first bay."""
HOOK_TOP_M = 96.0

SPIT: Chain = (
    (1.8, -2.2, 0.3),
    (1.1, -2.75, 0.11),
    (0.5, -3.1, 0.08),
    (-0.25, -3.3, 0.07),
    (-0.85, -3.25, 0.07),
    (-1.3, -2.95, 0.075),
    (-1.5, -2.6, 0.05),
)
"""A bar of sand and shingle, 1 to 3 m high."""

ISLETS = (
    Islet("Great Ruskel", -5.3, -2.45, 0.16, 41.0, 1.7, (0.8, 0.6)),
    Islet("Middle Ruskel", -4.75, -2.85, 0.09, 23.0, 1.3, (0.6, -0.8)),
    Islet("Little Ruskel", -5.75, -2.95, 0.06, 14.0),
    Islet("Talpen", 8.9, 3.0, 0.11, 34.0, 1.4, (0.0, 1.0)),
    Islet("Talpen Rock", 9.35, 2.55, 0.0, 9.0),
    Islet("Iskar Stack", -9.35, 2.35, 0.05, 31.0),
    Islet("North Stack", 1.6, 8.35, 0.05, 46.0),
    Islet("Sound Rock", 2.6, 1.1, 0.0, 12.0),
    Islet("Velbane", -1.2, 8.1, 0.13, 58.0, 1.5, (0.6, 0.8)),
    Islet("Lone Rock", -11.6, -5.6, 0.0, 8.0),
    Islet("Strand Holm", -3.2, -0.75, 0.08, 6.0, 1.6, (1.0, 0.0)),
)

VOID = ((-0.9, 6.35, 0.36), (-0.2, 6.65, 0.4))
"""Chain of cells without a height on the north coast: the gap that matters."""
