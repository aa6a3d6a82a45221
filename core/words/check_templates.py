"""Sentences of why a leg has no dead range or check spot."""

from core.base.language import tr
from core.plan import check_codes as codes

CHECK_TEMPLATES: dict[str, str] = {
    codes.NO_DEAD_RANGE: tr("nothing fixed paints within {angle} of the track, ahead or astern"),
    codes.NEVER_STEADY: tr("the turns leave no steady stretch to check on"),
    codes.NO_INDEX_SPOT: (
        tr("the track crosses no line from one fixed echo to another, both on the scale in use")
    ),
    codes.NO_HEADING_SPOT: (
        tr(
            "nothing small and fixed paints forward of the beam in the outer "
            "part of the scale in use"
        )
    ),
}
