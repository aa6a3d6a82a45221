"""Sectors seen from one viewpoint after another, followed along a leg."""

from dataclasses import dataclass

from core.base.angles import difference_deg

_FAR_M = 1e6
"""Stands for a range without end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """A sector between two ranges, seen from one viewpoint; ``index`` finds its owner again."""

    bearing_from_deg: float
    bearing_to_deg: float
    range_from_m: float
    range_to_m: float
    index: int = 0

    @property
    def width_deg(self) -> float:
        """Width of the sector, deg."""
        return (self.bearing_to_deg - self.bearing_from_deg) % 360.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Patches of one thing from viewpoint ``first`` on, one a viewpoint."""

    first: int
    patches: tuple[Patch, ...]

    @property
    def last(self) -> int:
        """Number of the last viewpoint."""
        return self.first + len(self.patches) - 1


def _overlap(a: Patch, b: Patch, slack_deg: float) -> float:
    """How much two patches overlap, deg times m, when the first is so much wider; else 0."""
    depth_m = min(a.range_to_m, b.range_to_m, _FAR_M) - max(a.range_from_m, b.range_from_m)
    if depth_m <= 0.0:
        return 0.0
    width = min(a.width_deg + 2.0 * slack_deg, 359.9)
    shift = (b.bearing_from_deg - a.bearing_from_deg + slack_deg) % 360.0
    arc = max(0.0, min(width, shift + b.width_deg) - shift)
    arc += max(0.0, min(width, shift - 360.0 + b.width_deg))
    return arc * depth_m


def follow(steps: tuple[tuple[Patch, ...], ...], *, slack_deg: float = 0.0) -> tuple[Chain, ...]:
    """Follow patches from viewpoint to viewpoint.

    A patch goes on as the one of the next viewpoint that it overlaps most, in bearing and in
    range; the pair with the greatest overlap is joined first, and each patch is joined once.

    Parameters
    ----------
    steps : tuple of tuples of Patch
        Patches of each viewpoint, in order along the leg.
    slack_deg : float
        How far a patch may turn from one viewpoint to the next beyond its own edges, deg.

    Returns
    -------
    tuple of Chain
        In order of first viewpoint, then of bearing there.
    """
    done: list[Chain] = []
    open_chains: list[tuple[int, list[Patch]]] = []
    for number, patches in enumerate(steps):
        pairs = sorted(
            (
                (-overlap, i, j)
                for i, (_first, held) in enumerate(open_chains)
                for j, patch in enumerate(patches)
                if (overlap := _overlap(held[-1], patch, slack_deg)) > 0.0
            ),
        )
        next_of: dict[int, int] = {}
        for _overlap_size, i, j in pairs:
            if i not in next_of and j not in next_of.values():
                next_of[i] = j
        going = []
        for i, (first, held) in enumerate(open_chains):
            if i in next_of:
                going.append((first, [*held, patches[next_of[i]]]))
            else:
                done.append(Chain(first=first, patches=tuple(held)))
        taken = set(next_of.values())
        going += [(number, [p]) for j, p in enumerate(patches) if j not in taken]
        open_chains = going
    done += [Chain(first=first, patches=tuple(held)) for first, held in open_chains]
    return tuple(sorted(done, key=lambda c: (c.first, c.patches[0].bearing_from_deg)))


def sector_of(patches: tuple[Patch, ...]) -> tuple[float, float]:
    """The arc that patches sweep over as each follows on the one before.

    Returns
    -------
    from_deg, to_deg
        Clockwise; 0 to 359.9 where they go all round.
    """
    low = high = 0.0
    start = patches[0].bearing_from_deg
    at = 0.0
    for number, patch in enumerate(patches):
        if number:
            at += difference_deg(patch.bearing_from_deg, patches[number - 1].bearing_from_deg)
        low, high = min(low, at), max(high, at + patch.width_deg)
    if high - low >= 359.9:
        return 0.0, 359.9
    return (start + low) % 360.0, (start + high) % 360.0


def stretch(places: list[float], first: int, last: int, length_m: float) -> tuple[float, float]:
    """From half a spacing before one viewpoint to half a spacing after another, on the leg."""
    before = places[first - 1] if first > 0 else places[first]
    after = places[last + 1] if last + 1 < len(places) else places[last]
    from_m = 0.0 if first == 0 else (before + places[first]) / 2.0
    to_m = length_m if last == len(places) - 1 else (after + places[last]) / 2.0
    return from_m, to_m
