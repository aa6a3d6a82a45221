"""Stream and leeway as they are given: for the whole passage, and for single legs instead."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Stream:
    """A tidal stream or current: the water moves towards ``set_deg`` at ``drift_mps``."""

    set_deg: float
    """True direction towards which the water moves."""
    drift_mps: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Leeway:
    """By how much the wind may push the ship off her heading: angles from 0 up, deg.

    Both sides above 0: from which side it will blow is not known. One side alone: it pushes to
    that side, if at all.
    """

    to_port_deg: float = 0.0
    to_starboard_deg: float = 0.0


def reversed_leeway(leeway: Leeway | None) -> Leeway | None:
    """The same wind on the opposite course."""
    if leeway is None:
        return None
    return Leeway(to_port_deg=leeway.to_starboard_deg, to_starboard_deg=leeway.to_port_deg)


@dataclass(frozen=True, slots=True, kw_only=True)
class LegStream:
    """What is given for a leg; None where nothing is."""

    stream: Stream | None = None
    leeway: Leeway | None = None

    @property
    def is_given(self) -> bool:
        """Whether anything is."""
        return self.stream is not None or self.leeway is not None


NOTHING_GIVEN = LegStream()


@dataclass(frozen=True, slots=True, kw_only=True)
class PassageStreams:
    """Stream and leeway of a passage; what a leg has of its own goes before the passage's."""

    everywhere: LegStream = NOTHING_GIVEN
    by_leg: tuple[tuple[int, LegStream], ...] = ()
    """By number of the leg, from 1; each leg once."""

    def on(self, leg_number: int) -> LegStream:
        """What holds on one leg, counted from 1."""
        own = dict(self.by_leg).get(leg_number, NOTHING_GIVEN)
        return LegStream(
            stream=own.stream or self.everywhere.stream,
            leeway=own.leeway or self.everywhere.leeway,
        )


NO_STREAMS = PassageStreams()
