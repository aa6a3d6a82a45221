"""The expected picture at the tune check of every leg, for the sheets."""

from core.base.progress import Progress
from core.jobs.picture_leg import PictureChoice, pictures_of
from core.plan.outcome import Outcome
from core.radar.presets import radar_set
from core.sheets.check_picture import CheckPicture

_SIZE_PX = 1000


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
    progress.report(0.0, "Making the land ready for the pictures")
    pictures = pictures_of(outcome)
    radars = outcome.request.ship.radars
    made = []
    for number, (leg_index, check) in enumerate(checks):
        progress.report(number / len(checks), f"Expected picture of leg {leg_index + 1}")
        radar_index = [radar.name for radar in radars].index(check.radar)
        picture = pictures.at(
            leg_index=leg_index,
            along_m=check.along_m,
            choice=PictureChoice(
                radar_index=radar_index,
                scale_m=check.scale_m,
                pulse=radar_set(radars[radar_index]).long_pulse.name,
                size_px=size_px,
            ),
        )
        # The rest of a picture is ten times as much, and not needed to print it.
        made.append(
            CheckPicture(
                leg_index=leg_index,
                screen=picture.screen(),
                frame=picture.frame,
                radius_m=picture.view.radius_m,
                heading_deg=picture.frame.up_deg,
                own=picture.view.own,
                budget=picture.view.budget,
            )
        )
    progress.report(1.0)
    return tuple(made)
