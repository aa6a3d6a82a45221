"""Expected pictures for the sheets: at every tune check, at landfalls and at the anchorage."""

from core.base.language import tr
from core.base.progress import Progress
from core.base.units import m_from_nm
from core.jobs.picture_leg import PassagePictures, PictureChoice, pictures_of
from core.plan.landfall import fix_scale_m, landfalls_of
from core.plan.outcome import Outcome
from core.radar.presets import radar_set
from core.sheets.check_picture import CheckPicture

_SIZE_PX = 1000
_USUAL_ANCHOR_SCALE_M = m_from_nm(1.5)
"""At anchor without anything to watch (job.md 3.7, common practice, no source)."""


def check_pictures(
    outcome: Outcome, progress: Progress, *, size_px: int = _SIZE_PX
) -> tuple[CheckPicture, ...]:
    """Pictures of the legs that have a tune check, in their order.

    Each is seen from the place of the check, on its scale, course-up and well set; with the long
    pulse, since the margins of the four echoes are worked out for that.

    Parameters
    ----------
    outcome : Outcome
        The finished plan.
    progress : Progress
        Told of every picture; may stop the work.
    size_px : int
        Side of each picture.
    """
    checks = [
        (leg.leg_index, leg.tune_check) for leg in outcome.plan.legs if leg.tune_check is not None
    ]
    if not checks:
        return ()
    progress.report(0.0, tr("Making the land ready for the pictures"))
    pictures = pictures_of(outcome)
    radars = outcome.request.ship.radars
    made = []
    for number, (leg_index, check) in enumerate(checks):
        progress.report(
            number / len(checks),
            tr("Expected picture of leg {leg_number}", leg_number=leg_index + 1),
        )
        radar_index = [radar.name for radar in radars].index(check.radar)
        choice = PictureChoice(
            radar_index=radar_index,
            scale_m=check.scale_m,
            pulse=radar_set(radars[radar_index]).long_pulse.name,
            size_px=size_px,
        )
        made.append(_printed(pictures, leg_index, check.along_m, choice))
    progress.report(1.0)
    return tuple(made)


def landfall_pictures(
    outcome: Outcome, progress: Progress, *, size_px: int = _SIZE_PX
) -> tuple[CheckPicture, ...]:
    """Pictures at the fix of every landfall, in their order.

    On the main radar and its long pulse, centred, on the scale that holds the objects of the fix.
    """
    landfalls = landfalls_of(outcome.plan, outcome.coverage)
    if not landfalls:
        return ()
    pictures = pictures_of(outcome)
    radar = outcome.request.ship.radars[0]
    made = []
    for number, landfall in enumerate(landfalls):
        progress.report(number / len(landfalls), tr("Expected picture of a landfall"))
        choice = PictureChoice(
            scale_m=fix_scale_m(landfall, radar.range_scales_m),
            off_centre_ratio=0.0,
            pulse=radar_set(radar).long_pulse.name,
            size_px=size_px,
        )
        made.append(_printed(pictures, landfall.leg_index, landfall.along_m, choice))
    progress.report(1.0)
    return tuple(made)


def anchorage_pictures(
    outcome: Outcome, progress: Progress, *, size_px: int = _SIZE_PX
) -> tuple[CheckPicture, ...]:
    """The picture at the anchorage, on the scale that holds all that is watched; none without."""
    card = outcome.plan.anchoring
    if card is None:
        return ()
    progress.report(0.0, tr("Expected picture at the anchorage"))
    radar = outcome.request.ship.radars[0]
    wanted_m = max((item.scale_m for item in card.watch), default=_USUAL_ANCHOR_SCALE_M)
    scales = sorted(radar.range_scales_m)
    choice = PictureChoice(
        scale_m=next((s for s in scales if s >= wanted_m - 1.0), scales[-1]),
        off_centre_ratio=0.0,
        size_px=size_px,
    )
    along_m = outcome.plan.legs[card.leg_index].distance_m
    return (_printed(pictures_of(outcome), card.leg_index, along_m, choice),)


def _printed(
    pictures: PassagePictures, leg_index: int, along_m: float, choice: PictureChoice
) -> CheckPicture:
    """What is printed of a picture: the rest is ten times as much."""
    picture = pictures.at(leg_index=leg_index, along_m=along_m, choice=choice)
    return CheckPicture(
        leg_index=leg_index,
        screen=picture.screen(),
        frame=picture.frame,
        radius_m=picture.view.radius_m,
        heading_deg=picture.frame.up_deg,
        own=picture.view.own,
        budget=picture.view.budget,
    )
