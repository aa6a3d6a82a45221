"""What the air's gases take from an echo, by band."""

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.ship.ship import Band

GAS_DB_PER_KM = {Band.X: 0.013273, Band.S: 0.007566}
"""Oxygen and water vapour, one way, dB/km, at 9.41 and 3.05 GHz.

ITU-R P.676-12 line by line at 1013.25 hPa, 15 C and 7.5 g/m3, computed with the package itur
0.4.0. The line sum has some eighty lines and answers one number a band: over each band it moves
by 0.0004 dB/km at most, from frost (0 C, 4.8 g/m3) to the tropics (30 C, 25 g/m3) by 0.0010 in
S and from -0.0003 to +0.0133 dB/km in X: at most 1 dB both ways at 20 NM.
"""


def gas_loss_db(band: Band, range_m: Floats) -> FloatArray:
    """Loss of an echo to the gases of the air, there and back, dB, >= 0.

    Parameters
    ----------
    band : Band
        Radar band.
    range_m : array
        Range, m.
    """
    return np.asarray(2.0 * GAS_DB_PER_KM[band] * np.asarray(range_m, np.float64) / 1000.0)
