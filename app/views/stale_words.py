"""What of a saved project belongs to the voyage it was saved for, and must be looked at again."""

from core.files.project import Project
from core.words import quantities


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


def stale_notice(project: Project) -> str:
    """The sentence shown when such a project is opened; empty where nothing of it ages."""
    facts = stale_facts(project)
    if project.revisions:
        last = project.revisions[-1]
        about = f"Revision {last.number} was issued {last.issued_utc[:10]}"
        facts = facts or ("ship and land data",)
        return f"STALE. {about}. Look again at {', '.join(facts)}; then compute the plan (F5)."
    if facts:
        return f"STALE. Look again at {', '.join(facts)}; then compute the plan (F5)."
    return ""
