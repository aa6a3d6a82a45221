"""Coordinates as officers write them: decimal degrees, or degrees and minutes with hemisphere."""

import re

_DECIMAL = re.compile(r"([+-]?)(\d{1,3}(?:[.,]\d{0,15})?)\s*°?", re.ASCII)
_PARTS = re.compile(
    r"(\d{1,3})[\s°º-]+(\d{1,2}(?:[.,]\d{0,12})?)\s*['′’]?"
    r"(?:[\s-]*(\d{1,2}(?:[.,]\d{0,12})?)\s*(?:\"|″|''))?",
    re.ASCII,
)


def coordinate_from_text(text: str, *, is_latitude: bool) -> float | None:
    """Degrees, north and east positive; None for anything that is no coordinate.

    Takes ``-31.5678``, ``31,5678 W``, ``31 34.07 W``, ``W 31°34.07'`` and ``31°34'04"W``; the
    value is not checked against the poles or the antimeridian.
    """
    plain = " ".join(text.split())
    hemispheres = "NS" if is_latitude else "EW"
    sign: float | None = None
    letters = plain[:1].upper() + plain[-1:].upper() if len(plain) > 1 else ""
    for letter, rest in ((letters[:1], plain[1:]), (letters[1:], plain[:-1])):
        if letter and letter in hemispheres:
            sign = 1.0 if letter == hemispheres[0] else -1.0
            plain = rest.strip()
            break
    match = _DECIMAL.fullmatch(plain)
    if match is not None:
        if match[1] and sign is not None:
            return None
        value = float(match[2].replace(",", "."))
        return value * (sign if sign is not None else -1.0 if match[1] == "-" else 1.0)
    match = _PARTS.fullmatch(plain)
    # Degrees and minutes without a hemisphere could lie on either side.
    if match is None or sign is None:
        return None
    minutes = float(match[2].replace(",", "."))
    seconds = float((match[3] or "0").replace(",", "."))
    if minutes >= 60.0 or seconds >= 60.0:
        return None
    return sign * (float(match[1]) + minutes / 60.0 + seconds / 3600.0)
