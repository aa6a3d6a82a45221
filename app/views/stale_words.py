"""What of a saved project belongs to the voyage it was saved for, and must be looked at again."""

from core.base.language import tr
from core.files.project import Project
from core.words import quantities
from core.words.old_plan_words import last_plan_words


def stale_facts(project: Project) -> tuple[str, ...]:
    """Conditions that age, in words; empty where a project holds none."""
    options, facts = project.options, []
    if options.start_utc is not None:
        facts.append(tr("start {start_utc:%d %b %Y %H:%M} UTC", start_utc=options.start_utc))
    if options.tide_m is not None:
        facts.append(tr("tide {height}", height=quantities.fine_height(options.tide_m)))
    if options.antenna_height_m is not None:
        facts.append(
            tr(
                "antenna {height} above the water",
                height=quantities.fine_height(options.antenna_height_m),
            )
        )
    if options.draught_forward_m is not None and options.draught_aft_m is not None:
        facts.append(
            tr(
                "draughts {draught_forward_m:g} / {draught_aft_m:g} m",
                draught_forward_m=options.draught_forward_m,
                draught_aft_m=options.draught_aft_m,
            )
        )
    elif facts and project.ship is not None:
        facts.append(tr("draughts in {name}", name=project.ship.name))
    if options.low_water_m is not None:
        facts.append(tr("low and high water"))
    if options.sea_state is not None or options.rain_mm_h is not None:
        facts.append(tr("sea and rain"))
    if options.set_deg is not None or project.streams is not None:
        facts.append(tr("streams"))
    if options.leeway_port_deg is not None or options.leeway_starboard_deg is not None:
        facts.append(tr("leeway"))
    return tuple(facts)


def old_plan_words(project: Project) -> str:
    """What is said while a plan of old was not computed again; empty where nothing of it ages."""
    facts, about = list(stale_facts(project)), [tr("STALE.")]
    if project.revisions:
        last = project.revisions[-1]
        date = last.issued_utc[:10]
        about.append(
            tr(
                "Revision {number} was issued {date} by {officer}.",
                number=last.number,
                date=date,
                officer=last.by,
            )
            if last.by
            else tr("Revision {number} was issued {date}.", number=last.number, date=date)
        )
    if project.last_plan is not None:
        about.append(f"{last_plan_words(project.last_plan)}.")
    if len(about) > 1:
        facts.append(tr("land data") if facts else tr("ship and land data"))
    if not facts:
        return ""
    about.append(tr("Look again at {facts}; then compute (F5).", facts=", ".join(facts)))
    return " ".join(about)
