"""Arithmetic of stretches along a leg: pairs of distances, in order, not touching."""

Interval = tuple[float, float]
Intervals = tuple[Interval, ...]


def union(parts: Intervals, *, join_m: float = 0.0) -> Intervals:
    """The same stretches in order, with those that overlap or nearly touch made one."""
    joined: list[Interval] = []
    for start, stop in sorted(parts):
        if stop < start:
            continue
        if joined and start <= joined[-1][1] + join_m:
            joined[-1] = (joined[-1][0], max(joined[-1][1], stop))
        else:
            joined.append((start, stop))
    return tuple(joined)


def intersection(one: Intervals, other: Intervals) -> Intervals:
    """What lies in both."""
    shared: list[Interval] = []
    for a in one:
        for b in other:
            start, stop = max(a[0], b[0]), min(a[1], b[1])
            if stop > start:
                shared.append((start, stop))
    return union(tuple(shared))


def difference(one: Intervals, other: Intervals) -> Intervals:
    """What of the first lies outside the second."""
    left = list(one)
    for start, stop in other:
        rest: list[Interval] = []
        for a, b in left:
            if stop <= a or start >= b:
                rest.append((a, b))
                continue
            if a < start:
                rest.append((a, start))
            if stop < b:
                rest.append((stop, b))
        left = rest
    return union(tuple(left))


def length_m(parts: Intervals) -> float:
    """Total length, m."""
    return sum(stop - start for start, stop in parts)


def longer_than(parts: Intervals, least_m: float) -> Intervals:
    """Those of at least a length."""
    return tuple(part for part in parts if part[1] - part[0] >= least_m - 1e-6)
