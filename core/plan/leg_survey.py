"""What one leg offers before anybody chooses: windows on every scale, and who gets a letter."""

from dataclasses import dataclass

from core.plan.candidates import Candidate, LegField, ranked, windows_on
from core.plan.intervals import difference, length_m, union
from core.plan.rules import PlanRules
from core.plan.usable_window import EdgePoint, UsableWindow
from core.plan.wheel_over_marks import choose_marks
from core.plan.wheel_over_site import WheelOverSite


@dataclass(frozen=True, slots=True, kw_only=True)
class LegSurvey:
    """Windows of a leg's features on each of its settings, and the features worth a letter.

    ``edges`` holds the key of every such feature with its edge point, in no special order of
    merit: candidates first, then marks of the wheel-over.
    """

    windows: tuple[dict[str, UsableWindow], ...]
    candidate_keys: tuple[str, ...]
    edges: tuple[tuple[str, EdgePoint], ...]


def survey_leg(field: LegField, rules: PlanRules) -> LegSurvey:
    """Look at a leg on every setting.

    What comes out depends on land, sight, ship and speed, never on what the officer chose, so
    that letters stay when he changes his mind.
    """
    windows = tuple(
        windows_on(field, field.uniform(setting), rules) if field.end_m > 0.0 else {}
        for setting in field.settings
    )
    best: dict[str, Candidate] = {}
    for setting, found in zip(field.settings, windows, strict=True):
        for candidate in ranked(
            field,
            found,
            limit_m=setting.budget.limit_m,
            echo_m=field.echo_m(setting.screen.scale_m, rules),
            leg_counts={},
            chosen=frozenset(),
            rules=rules,
        ):
            known = best.get(candidate.key)
            if known is None or _merit(candidate) > _merit(known):
                best[candidate.key] = candidate
    order = sorted(best.values(), key=lambda c: (c.rank.is_weak, -c.rank.score, c.key))
    kept = _kept(order, windows, rules)
    edges = {c.key: c.window.edge for c in kept}
    if field.turn_plan.turn is not None:
        for setting in field.settings:
            site = WheelOverSite(
                line=field.line,
                new_line=None,
                turn_plan=field.turn_plan,
                speed_mps=field.speed_mps,
                motion=field.motion,
                corridor_m=field.corridor_m,
                setting=setting,
                sight=field.sight,
                sectors=field.sectors,
                rules=rules,
            )
            for key, edge in choose_marks(site, field.tracks):
                edges.setdefault(key, edge)
    return LegSurvey(
        windows=windows,
        candidate_keys=tuple(c.key for c in kept),
        edges=tuple(edges.items()),
    )


def _kept(
    order: list[Candidate], windows: tuple[dict[str, UsableWindow], ...], rules: PlanRules
) -> list[Candidate]:
    """The best candidates, and others that can be used where none of them can."""
    kept = order[: rules.candidates_per_leg]
    covered = [
        union(tuple(part for c in kept if c.key in found for part in found[c.key].windows))
        for found in windows
    ]
    for candidate in order[rules.candidates_per_leg :]:
        added = [
            difference(found[candidate.key].windows, done) if candidate.key in found else ()
            for found, done in zip(windows, covered, strict=True)
        ]
        if any(length_m(parts) >= rules.least_window_m for parts in added):
            kept.append(candidate)
            covered = [union((*done, *parts)) for done, parts in zip(covered, added, strict=True)]
    return kept


def _merit(candidate: Candidate) -> tuple[bool, float]:
    return (not candidate.rank.is_weak, candidate.rank.score)
