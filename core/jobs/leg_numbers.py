"""Legs by the numbers of the files, and by those of the passage as it is planned.

Files of limits, streams and contingency legs count the legs of the route file. Edits by hand may
have split, joined or taken out some of them (``Project.leg_sources``), and the passage may be
planned the other way.
"""

from dataclasses import dataclass, replace

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.files.project import Project
from core.passage.contingency import Contingency
from core.passage.reverse import reversed_number
from core.passage.stream import LegStream, reversed_leeway
from core.plan.plan_result import DangerLimit

Streams = tuple[tuple[int, LegStream], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LegNumbers:
    """Which legs, from 1, stand for a leg of the files."""

    sources: tuple[tuple[int, ...], ...]
    """Legs of the file, from 0, that each leg of the route, the right way round, is made of."""
    is_edited: bool
    is_reversed: bool

    @staticmethod
    def of(project: Project, leg_count: int) -> "LegNumbers":
        """Numbers of a project whose passage has so many legs."""
        same = tuple((i,) for i in range(leg_count))
        is_edited = bool(project.leg_sources)
        if is_edited and len(project.leg_sources) != leg_count:
            raise InputError(
                tr(
                    "the project says where {count} legs come from, the passage has {leg_count}",
                    count=len(project.leg_sources),
                    leg_count=leg_count,
                ),
                where=tr("project"),
                todo=tr("Open the route file anew"),
            )
        return LegNumbers(
            sources=project.leg_sources or same,
            is_edited=is_edited,
            is_reversed=project.is_reversed,
        )

    def _planned(self, number: int) -> int:
        return reversed_number(number, len(self.sources)) if self.is_reversed else number

    def made_of(self, number: int) -> tuple[int, ...]:
        """Legs of the route, in its order and by its numbers, made of a leg of the files."""
        if not self.is_edited:
            return (number,)
        return tuple(i + 1 for i, legs in enumerate(self.sources) if number - 1 in legs)

    def limits(
        self, limits: tuple[DangerLimit, ...], file: str, *, is_file: bool
    ) -> tuple[tuple[DangerLimit, ...], tuple[Finding, ...]]:
        """Danger limits by the numbers of the plan; a finding for those whose leg is gone."""
        found: list[DangerLimit] = []
        gone: list[DangerLimit] = []
        for limit in limits:
            if limit.leg_number is None:
                found.append(limit)
                continue
            legs = self.made_of(limit.leg_number) if is_file else (limit.leg_number,)
            if not legs:
                gone.append(limit)
            found += [replace(limit, leg_number=self._planned(leg)) for leg in legs]
        return tuple(_strictest(found)), tuple(
            Finding(
                severity=Severity.CHECK,
                code="limit-without-leg",
                what=tr(
                    "the danger limit off {object_id} was for leg {leg_number} of the "
                    "route file, of which nothing is left",
                    object_id=limit.object_id,
                    leg_number=limit.leg_number,
                ),
                where=Where(file=file),
                todo=tr("Give it for a leg of the edited route if it still counts"),
            )
            for limit in gone
        )

    def streams(self, by_leg: Streams, file: str) -> Streams:
        """Streams by the numbers of the plan; leeway changes sides with the course."""
        found: dict[int, LegStream] = {}
        for number, given in by_leg:
            legs = self.made_of(number)
            beyond = [leg for leg in legs if leg > len(self.sources)]
            if beyond:
                raise InputError(
                    tr(
                        "a stream is given for leg {number}, the passage has {count} legs",
                        number=number,
                        count=len(self.sources),
                    ),
                    where=file,
                    todo=tr("Correct the number of the leg"),
                )
            if self.is_reversed:
                given = replace(given, leeway=reversed_leeway(given.leeway))
            for leg in legs:
                found.setdefault(self._planned(leg), given)
        return tuple(found.items())

    def contingencies(self, given: tuple[Contingency, ...]) -> tuple[Contingency, ...]:
        """Contingency legs by the numbers of the route.

        One that counts from the leg's end goes with the last of the legs made of its own, one
        that counts from its start with the first; one whose leg is gone is left out.
        """
        found = []
        for contingency in given:
            legs = self.made_of(contingency.leg_number)
            if legs:
                leg = legs[0] if contingency.along_m is not None else legs[-1]
                found.append(replace(contingency, leg_number=leg))
        return tuple(found)


def _strictest(limits: list[DangerLimit]) -> list[DangerLimit]:
    """One limit for each object and leg: where legs were joined, both count."""
    by_key: dict[tuple[str, int | None], DangerLimit] = {}
    for limit in limits:
        key = (limit.object_id.casefold(), limit.leg_number)
        other = by_key.get(key)
        if other is not None:
            least = [v for v in (limit.least_m, other.least_m) if v is not None]
            most = [v for v in (limit.most_m, other.most_m) if v is not None]
            limit = replace(other, least_m=max(least, default=None), most_m=min(most, default=None))
        by_key[key] = limit
    return list(by_key.values())
