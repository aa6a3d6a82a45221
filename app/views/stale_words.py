"""What of a saved project belongs to the voyage it was saved for, and must be looked at again."""

from core.files.project import Project
from core.words import quantities
from core.words.old_plan_words import last_plan_words


def stale_facts(project: Project) -> tuple[str, ...]:
    """Conditions that age, in words; empty where a project holds none."""
    options, facts = project.options, []
    if options.start_utc is not None:
        facts.append(f"start {options.start_utc:%d %b %Y %H:%M} UTC")
    if options.tide_m is not None:
        facts.append(f"tide {quantities.fine_height(options.tide_m)}")
    if options.antenna_height_m is not None:
        facts.append(f"antenna {quantities.fine_height(options.antenna_height_m)} above the water")
    if options.draught_forward_m is not None and options.draught_aft_m is not None:
        facts.append(f"draughts {options.draught_forward_m:g} / {options.draught_aft_m:g} m")
    elif facts and project.ship is not None:
        facts.append(f"draughts in {project.ship.name}")
    if options.low_water_m is not None:
        facts.append("low and high water")
    if options.sea_state is not None or options.rain_mm_h is not None:
        facts.append("sea and rain")
    if options.set_deg is not None or project.streams is not None:
        facts.append("streams")
    if options.leeway_port_deg is not None or options.leeway_starboard_deg is not None:
        facts.append("leeway")
    return tuple(facts)


def old_plan_words(project: Project) -> str:
    """What is said while a plan of old was not computed again; empty where nothing of it ages."""
    facts, about = list(stale_facts(project)), ["STALE."]
    if project.revisions:
        last = project.revisions[-1]
        by = f" by {last.by}" if last.by else ""
        about.append(f"Revision {last.number} was issued {last.issued_utc[:10]}{by}.")
    if project.last_plan is not None:
        about.append(f"{last_plan_words(project.last_plan)}.")
    if len(about) > 1:
        facts.append("land data" if facts else "ship and land data")
    if not facts:
        return ""
    about.append(f"Look again at {', '.join(facts)}; then compute (F5).")
    return " ".join(about)
