"""What stands on a picture where a tune check rings its echoes."""

import numpy as np

from core.base.arrays import ByteArray
from core.plan.tune_result import LadderEcho
from core.sheets.check_picture import CheckPicture
from core.sheets.picture_labels import RING_RATIO


def codes_round(picture: CheckPicture, echo: LadderEcho, share: float = 1.0) -> ByteArray:
    """Codes of ``Paint`` within a share of the ring's radius, pixels turned to north and metres."""
    frame = picture.frame
    own_x, own_y = frame.own_px
    middles = np.arange(frame.size_px) + 0.5
    right_m = (middles - own_x)[np.newaxis, :] * frame.m_per_px
    ahead_m = (own_y - middles)[:, np.newaxis] * frame.m_per_px
    up, bearing = np.radians(frame.up_deg), np.radians(echo.bearing_deg)
    east_m = right_m * np.cos(up) + ahead_m * np.sin(up)
    north_m = ahead_m * np.cos(up) - right_m * np.sin(up)
    off_m = np.hypot(
        east_m - echo.range_m * np.sin(bearing), north_m - echo.range_m * np.cos(bearing)
    )
    inside = off_m <= share * RING_RATIO * frame.size_px * frame.m_per_px
    return np.asarray(picture.screen[inside])
