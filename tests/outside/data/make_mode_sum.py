"""Makes ``mode_sum.csv``: the field over a smooth sphere by the exact series of modes.

Needs mpmath (1.4.1 was used), which the project does not depend on: ``pip install mpmath``, then
``python make_mode_sum.py > mode_sum.csv``; it takes some minutes.

Residue series of Fock for a perfectly reflecting sphere, horizontal polarisation (from memory;
handbook 5.6)::

    F = 2 sqrt(pi x) | sum_s exp(i x t_s) w(t_s - y1) w(t_s - y2) / w'(t_s)^2 |

x = m d / a_e, y = 2 pi h / (lambda m), m = (pi a_e / lambda)^(1/3), w(t) = Ai(t e^(2 pi i / 3)),
t_s = tau_s e^(i pi / 3) with Ai(-tau_s) = 0. Forty digits, since terms grow hugely with height
before they fall.
"""

import sys

import mpmath as mp

LIGHT_MPS = 299_792_458.0
EARTH_M = 6_371_000.0
ANTENNAS = ((15.0, 4.0 / 3.0), (15.0, 1.0), (30.0, 4.0 / 3.0))
HEIGHTS_M = (1.0, 2.0, 3.5, 5.0, 10.0, 25.0, 60.0)
SHARES = (0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.25)
"""Ranges as shares of the horizon of antenna and target together."""
MOST_TERMS = 500

mp.mp.dps = 40
TURN = mp.e ** (2j * mp.pi / 3)
ZEROS: list[object] = []


def term_of(number: int) -> tuple[object, object]:
    """The pole t_s and the square of the derivative there."""
    while len(ZEROS) < number:
        pole = -mp.airyaizero(len(ZEROS) + 1) * mp.e ** (1j * mp.pi / 3)
        slope = TURN * mp.airyai(TURN * pole, derivative=1)
        ZEROS.append((pole, slope**2))
    return ZEROS[number - 1]  # type: ignore[return-value]  # mpmath has no types


def field_db(range_m: float, h1_m: float, h2_m: float, frequency_hz: float, k: float) -> float:
    """20 log F; NaN where the series has not settled."""
    earth_m = k * EARTH_M
    wavelength_m = LIGHT_MPS / frequency_hz
    m = (mp.pi * earth_m / wavelength_m) ** (mp.mpf(1) / 3)
    x = m * range_m / earth_m
    y1, y2 = (2 * mp.pi * h / (wavelength_m * m) for h in (h1_m, h2_m))
    total = mp.mpc(0)
    for number in range(1, MOST_TERMS + 1):
        pole, square = term_of(number)
        term = (
            mp.e ** (1j * x * pole)
            * mp.airyai(TURN * (pole - y1))
            * mp.airyai(TURN * (pole - y2))
            / square
        )
        total += term
        if number > 8 and abs(term) < abs(total) * mp.mpf(10) ** -10:
            return float(20 * mp.log10(2 * mp.sqrt(mp.pi * x) * abs(total)))
    return float("nan")


def main() -> None:
    """Write the table."""
    sys.stdout.write("frequency_hz,antenna_m,height_m,refraction_k,horizon_share,range_m,f_db\n")
    for frequency_hz in (3.05e9, 9.41e9):
        for antenna_m, k in ANTENNAS:
            for height_m in HEIGHTS_M:
                reach = float(mp.sqrt(2 * k * EARTH_M))
                horizon_m = reach * (antenna_m**0.5 + height_m**0.5)
                for share in SHARES:
                    range_m = round(share * horizon_m, 1)
                    value_db = field_db(range_m, antenna_m, height_m, frequency_hz, k)
                    if value_db == value_db:
                        sys.stdout.write(
                            f"{frequency_hz:.6g},{antenna_m:g},{height_m:g},{k:.6f},{share:g},"
                            f"{range_m:.1f},{value_db:.4f}\n"
                        )


if __name__ == "__main__":
    main()
