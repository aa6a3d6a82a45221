"""The short help: what the window shows and how it is worked, in deck words."""

from dataclasses import dataclass

from core.base.language import tr


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """One page of the help."""

    title: str
    paragraphs: tuple[str, ...]


TOPICS = (
    Topic(
        title=tr("From a route to a plan"),
        paragraphs=(
            tr(
                "Open or drop a route, add a folder of elevation and coast, choose "
                "the ship, compute (F5). The buttons at the top say what each step "
                "has and frame the one to do next."
            ),
            tr(
                "Land is looked at once and remembered. Ctrl+Shift+K lists what is "
                "known, how much of the passage each file covers, how old it is "
                "and under what licence."
            ),
            tr(
                "Conditions (Ctrl+E) hold tide, refraction, sea, rain, speed and "
                "start. What you leave empty is taken from the files, or assumed "
                "and said so in the findings."
            ),
            tr(
                "Esc stops a computation. Nothing is lost: the plan before stays, "
                "legs that were done are not worked out twice."
            ),
        ),
    ),
    Topic(
        title=tr("The leg strip"),
        paragraphs=(
            tr(
                "The leg unrolled: the ship runs up the page, port left, starboard "
                "right. A fixed echo travels straight down it, an index line "
                "stands upright at its cross-index range."
            ),
            tr(
                "The strong warm line is coast that is expected to paint; hatched "
                "water is hidden from radar for a craft of the stated height; "
                "crossed hatch is not known, for want of data."
            ),
            tr(
                "The bars at both edges tell from when and until when objects may "
                "be used, the middle ruler distance to go, time, range scales and "
                "what there is to do."
            ),
            tr(
                "Up and Down move own ship by a viewpoint, with Shift by a minute; "
                "Alt and Right goes to the next event (all keys: F1). The pointer "
                "explains whatever it is on, and so does F3 for what is beside own "
                "ship."
            ),
            tr(
                "An index line may be dragged to another object, a margin line to "
                "another limit; Esc leaves it where it was."
            ),
        ),
    ),
    Topic(
        title=tr("First paints"),
        paragraphs=(
            tr(
                "Four limits: possible, by geometry alone in strong refraction; "
                "from, by geometry in the usual air; by, when your radar is "
                "expected to show it in the weather given; overdue, when even a "
                "poor set in poor air should have shown it."
            ),
            tr(
                "Only overdue calls the master: something is wrong with the "
                "position, the set or the plan."
            ),
            tr("What must not paint is behind land. If it paints, doubt the position."),
        ),
    ),
    Topic(
        title=tr("Index lines, hand-overs and gaps"),
        paragraphs=(
            tr(
                "The primary line is the one to watch; the check line proves it. "
                "Each has a window: the stretch over which its object is in sight, "
                "paints, and is good enough."
            ),
            tr(
                "A hand-over tells where to pass from one object to the next, with "
                "both lines up for a while. A gap is a stretch without any; the "
                "plan says what to do instead."
            ),
            tr(
                "F2 puts another object in place of the plan's, locks it, and "
                "keeps your reason for the sheet. Margin lines come from your "
                "danger limits alone, read from the chart."
            ),
        ),
    ),
    Topic(
        title=tr("Hidden water and craft that come out"),
        paragraphs=(
            tr(
                "Land hides craft as well as coast. The plan says where a craft "
                "may come out from behind a head, and how many minutes of warning "
                "that leaves."
            ),
            tr(
                "An offing that would give enough warning is named where there is "
                "one. The leg menu compares offings."
            ),
        ),
    ),
    Topic(
        title=tr("The expected picture"),
        paragraphs=(
            tr(
                "Drawn as a picture to check the set against, not as a screen. "
                "Click an echo to learn what it is and by how many dB it shows."
            ),
            tr(
                "Set-up gives the usual mistakes by name; the list beside it tells "
                "which echoes they lose first. Hold keeps one set-up above the "
                "other."
            ),
            tr(
                "The tune check names up to four echoes, strong to absent, with "
                "place, time and scale."
            ),
        ),
    ),
    Topic(
        title=tr("Editing"),
        paragraphs=(
            tr(
                "Waypoints, marks and limits are edited in the area view or in "
                "tables, the ship with her blind sectors in a form. All of it is "
                "kept in the project; your files stay as they are."
            ),
            tr(
                "Ctrl+Z takes back one intention at a time. What no longer fits the inputs is "
                "marked STALE until it is computed again (F5)."
            ),
        ),
    ),
    Topic(
        title=tr("Findings"),
        paragraphs=(
            tr(
                "Must fix: the plan leans on something that is missing or wrong. "
                "Check: something was assumed, or deserves a look. Note: good to "
                "know."
            ),
            tr("Each says what to do; Enter goes to the place."),
        ),
    ),
    Topic(
        title=tr("Sheets and files"),
        paragraphs=(
            tr(
                "Ctrl+Shift+P shows the pages as they print; parts can be "
                "chosen. They are made for black-and-white A4 and survive a "
                "photocopy."
            ),
            tr(
                "Issue a plan as a revision (Ctrl+R): later plans mark the legs "
                "that changed and say in what."
            ),
            tr(
                "Edits are kept as you go. After a crash or loss of power the next "
                "start offers them."
            ),
        ),
    ),
    Topic(
        title=tr("At night"),
        paragraphs=(
            tr(
                "F8 changes between day, dusk and night; Shift+F8 dims, Ctrl+F8 brightens, each of "
                "the three by itself. Dialogs and menus follow."
            ),
        ),
    ),
    Topic(
        title=tr("What this is not"),
        paragraphs=(
            tr(
                "Not a chart: no depths, no wrecks, no buoys but your own marks, "
                "not all obstructions. Not a position: nothing here comes from the "
                "ship's sensors."
            ),
            tr(
                "Charts, publications, local rules, company procedures and the "
                "judgement of master and pilot take precedence."
            ),
        ),
    ),
)
