"""Latitudes and longitudes as people write them: many notations, but never a guess."""

import re
import unicodedata
from dataclasses import dataclass

from core.base.language import Worded, tr

LIMIT_LINE = 300
"""Longest line taken for a position, characters."""


class Axis(Worded):
    """Which of the two angles of a position."""

    LAT = "latitude"
    LON = "longitude"

    @property
    def most_deg(self) -> int:
        """Largest angle on either side of zero."""
        return 90 if self is Axis.LAT else 180

    @property
    def letters(self) -> str:
        """Letter of the positive half, then of the negative."""
        return "NS" if self is Axis.LAT else "EW"


class AngleError(ValueError):
    """Text that is no angle or position; the message is the rest of a sentence about it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenPosition:
    """A position read from text, with the name that stood beside it."""

    name: str
    lat_deg: float
    lon_deg: float
    has_letters: bool
    """Whether hemisphere letters told which angle is which."""


_SAME = str.maketrans(
    {
        "º": "°",
        "˚": "°",
        "∘": "°",
        "′": "'",
        "’": "'",
        "‘": "'",
        "´": "'",
        "`": "'",
        "ʹ": "'",
        "″": '"',
        "”": '"',
        "“": '"',
        "„": '"',
        "ʺ": '"',
        "−": "-",
        "–": "-",
        "‐": "-",
        "‑": "-",
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
        "\ufeff": " ",
    }
)

_NUMBER = r"[0-9]{1,3}(?:[.,][0-9]{1,15})?"
# What may stand between degrees, minutes and seconds; white space is single by then.
_GAP = r"(?: ?[°'] ?|[:-](?=[0-9])| )"
_TAIL = r""" ?(?:°|''|'|")? ?"""
_PLAIN = re.compile(rf"(?P<sign>[+-]?) ?(?P<parts>{_NUMBER}(?:{_GAP}{_NUMBER}){{0,2}}){_TAIL}")
_RUN_AT_END = re.compile(rf"(?<![0-9.,A-Za-z+-])[+-]?{_NUMBER}(?:{_GAP}{_NUMBER}){{0,4}}{_TAIL}$")
_UNIT_WORDS = (
    (re.compile(r"(?<=[0-9]) ?(?:degrees|deg)(?![^\W\d_])\.?", re.IGNORECASE), "°"),
    (re.compile(r"(?<=[0-9]) ?(?:minutes|min)(?![^\W\d_])\.?", re.IGNORECASE), "'"),
    (re.compile(r"(?<=[0-9]) ?(?:seconds|sec)(?![^\W\d_])\.?", re.IGNORECASE), '"'),
)
_ANY_NUMBER = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
_LETTER_BEHIND = re.compile(r"""(?<=[0-9°'"])\s*([NSEWnsew])(?![^\W_])""")
_LETTER_BEFORE = re.compile(r"(?<![^\W_])([NSEWnsew])\s*(?=[0-9])")


def same_marks(text: str) -> str:
    """The text with signs and words for degree, minute, second and minus made one sign each.

    White space becomes one space or tabs alone.
    """
    text = re.sub(r"[^\S\t]+", " ", text.translate(_SAME))
    text = re.sub(r" ?\t ?", "\t", text)
    for pattern, mark in _UNIT_WORDS:
        text = pattern.sub(mark, text)
    return text


def angle_deg(text: str, axis: Axis) -> float:
    """One angle, whole text.

    Decimal degrees, degrees and minutes, or degrees, minutes and seconds; decimal point or
    comma; a sign before, or a hemisphere letter before or behind, not both.

    Raises
    ------
    AngleError
        Not such a text, or out of range.
    """
    shown = " ".join(text.split())[:40]
    text = same_marks(text[: LIMIT_LINE + 1]).strip()
    if len(text) > LIMIT_LINE or not text:
        raise AngleError(tr("{axis} “{text}” cannot be read", axis=axis.shown, text=shown))
    letter = ""
    if text[-1].upper() in "NSEW":
        letter, text = text[-1].upper(), text[:-1]
    elif text[0].upper() in "NSEW":
        letter, text = text[0].upper(), text[1:]
    if letter and letter not in axis.letters:
        raise AngleError(
            tr(
                "{axis} “{text}” has the letter {letter}",
                axis=axis.shown,
                text=shown,
                letter=letter,
            )
        )
    match = _PLAIN.fullmatch(text.strip())
    if match is None:
        raise AngleError(tr("{axis} “{text}” cannot be read", axis=axis.shown, text=shown))
    if letter and match["sign"]:
        raise AngleError(
            tr("{axis} “{text}” has both a sign and a letter", axis=axis.shown, text=shown)
        )
    value = _degrees(match["parts"], axis, shown)
    negative = match["sign"] == "-" or letter == axis.letters[1]
    return -value if negative else value


def _degrees(parts: str, axis: Axis, shown: str) -> float:
    numbers = [number.replace(",", ".") for number in _ANY_NUMBER.findall(parts)]
    if any("." in number for number in numbers[:-1]):
        raise AngleError(
            tr(
                "{axis} “{text}” has a fraction before the last number",
                axis=axis.shown,
                text=shown,
            )
        )
    value = 0.0
    for number, unit in zip(numbers, (1, 60, 3600), strict=False):
        if unit > 1 and float(number) >= 60.0:
            raise AngleError(
                tr(
                    "{axis} “{text}” has 60 or more minutes or seconds",
                    axis=axis.shown,
                    text=shown,
                )
            )
        value += float(number) / unit
    if value > axis.most_deg:
        raise AngleError(
            tr(
                "{axis} “{text}” is more than {most_deg} degrees",
                axis=axis.shown,
                text=shown,
                most_deg=axis.most_deg,
            )
        )
    return value


def position_in_text(line: str) -> WrittenPosition:
    """A position in a line of text, with an optional name before or behind it.

    With hemisphere letters either order; without, latitude first. Where it is not plain which
    numbers belong to the name the line is refused.

    Raises
    ------
    AngleError
        No position, or one that can be read in two ways.
    """
    if len(line) > LIMIT_LINE:
        raise AngleError(
            tr("the line is longer than {most_characters} characters", most_characters=LIMIT_LINE)
        )
    text = same_marks(unicodedata.normalize("NFC", line)).strip().rstrip(",;")
    behind = list(_LETTER_BEHIND.finditer(text))
    if len(behind) >= 2:
        return _with_letters_behind(text, behind[-2], behind[-1])
    before = list(_LETTER_BEFORE.finditer(text))
    if len(before) >= 2:
        return _with_letters_before(text, before[-2], before[-1])
    return _without_letters(text)


_UNCLEAR = tr("it is not plain where the name ends; put a comma behind the name")


def _with_letters_behind(text: str, first: re.Match[str], second: re.Match[str]) -> WrittenPosition:
    between = text[first.end() : second.start()].strip(" ,;/\t")
    lead, tail = text[: first.start()], text[second.end() :].strip(" ,;:\t")
    if tail and not any(char.isalpha() for char in tail):
        raise AngleError(tr("“{rest}” behind the position cannot be read", rest=tail[:30]))
    head, own = _split_lead(lead, _count(between))
    name = " ".join(part for part in (_name(head), tail) if part)
    return _pair(name, own + first[1], between + second[1], (first[1] + second[1]).upper())


def _with_letters_before(text: str, first: re.Match[str], second: re.Match[str]) -> WrittenPosition:
    between = text[first.end() : second.start()].strip(" ,;/\t")
    behind = text[second.end() :].strip()
    name = _name(text[: first.start()])
    match = _PLAIN.match(behind)
    if match is not None and re.match(r"[,;:]? ?[^\W\d_]", behind[match.end() :]):
        name = " ".join(part for part in (name, _name(behind[match.end() :])) if part)
        behind = behind[: match.end()]
    return _pair(name, first[1] + between, second[1] + behind, (first[1] + second[1]).upper())


def _pair(name: str, first: str, second: str, letters: str) -> WrittenPosition:
    if letters[0] in "NS" and letters[1] in "EW":
        lat_text, lon_text = first, second
    elif letters[0] in "EW" and letters[1] in "NS":
        lat_text, lon_text = second, first
    else:
        raise AngleError(
            tr(
                "the letters {first_letter} and {second_letter} do not make a position",
                first_letter=letters[0],
                second_letter=letters[1],
            )
        )
    return WrittenPosition(
        name=name,
        lat_deg=angle_deg(lat_text, Axis.LAT),
        lon_deg=angle_deg(lon_text, Axis.LON),
        has_letters=True,
    )


def _count(angle: str) -> int:
    return len(_ANY_NUMBER.findall(angle))


def _split_lead(lead: str, other_count: int) -> tuple[str, str]:
    """Cut what stands before the first letter into a name and an angle.

    ``other_count`` is how many numbers the other angle has: people write both alike, which
    tells a number of the name from a number of degrees.
    """
    cut = max(lead.rfind(separator) for separator in "\t;|")
    if cut >= 0:
        return lead[: cut + 1], lead[cut + 1 :]
    match = _RUN_AT_END.search(lead)
    if match is None:
        raise AngleError(tr("there is no number before the first hemisphere letter"))
    head, run = lead[: match.start()], match[0]
    degree = run.rfind("°")
    if degree >= 0:
        start = [number.start() for number in _ANY_NUMBER.finditer(run[:degree])][-1]
        return head + run[:start], run[start:]
    joined = re.search(r"(?<=\s)\S*[0-9][-:][0-9]\S*\s*$", run)
    if joined is not None:
        return head + run[: joined.start()], run[joined.start() :]
    if head.rstrip(" ").endswith((",", ":", '"')):
        return head, run
    count = _count(run)
    if count <= other_count:
        return head, run
    starts = [number.start() for number in _ANY_NUMBER.finditer(run)]
    if head.strip() and count == other_count + 1 and other_count >= 2:
        return head + run[: starts[1]], run[starts[1] :]
    raise AngleError(_UNCLEAR if head.strip() else tr("the two angles are not written alike"))


def _without_letters(text: str) -> WrittenPosition:
    cells = _cells(text)
    if len(cells) < 2:
        raise AngleError(tr("there is no position in it"))
    if not _is_angle(cells[-1]) and len(cells) > 2:
        # A name behind the position.
        cells = [cells[-1], *cells[:-1]]
    *names, lat_text, lon_text = cells
    if not names and any(char.isalpha() for char in lat_text):
        name, lat_text = _name_before(lat_text, _count(lon_text))
        names = [name]
    if len(names) > 1 or any(_looks_decimal(name) for name in names):
        raise AngleError(tr("it has more numbers than a name, a latitude and a longitude"))
    return WrittenPosition(
        name=_name(names[0]) if names else "",
        lat_deg=angle_deg(lat_text, Axis.LAT),
        lon_deg=angle_deg(lon_text, Axis.LON),
        has_letters=False,
    )


def _name_before(text: str, other_count: int) -> tuple[str, str]:
    match = re.search(r"(?<=\s)[+-]?[0-9][^A-Za-z]*$", text)
    if match is None:
        raise AngleError(tr("latitude “{text}” cannot be read", text=text[:40]))
    if _count(match[0]) != other_count:
        raise AngleError(_UNCLEAR)
    return text[: match.start()], match[0]


def _cells(text: str) -> list[str]:
    """Cut at the strongest separator there is: tab or semicolon, comma, white space."""
    for pattern in (r"\s*[;\t|]\s*", r"\s*,\s+"):
        cells = [cell for cell in re.split(pattern, text) if cell]
        if len(cells) >= 2:
            return cells
    commas = text.count(",")
    if (
        commas
        and ("." in text or "°" in text or commas == 1)
        and not re.search(r"[0-9],[0-9]+\s+[+-]?[0-9]", text)
    ):
        return [cell.strip() for cell in text.split(",") if cell.strip()]
    if commas > 1 and not re.search(r"\s", text):
        raise AngleError(
            tr("its commas can be read in two ways; put a semicolon between the angles")
        )
    words = text.split()
    numbers = [word for word in words if _is_angle(word)]
    if len(numbers) == 2 and words[-2:] == numbers:
        return [*([" ".join(words[:-2])] if len(words) > 2 else []), *numbers]
    if len(numbers) == len(words) and len(words) in {4, 6}:
        half = len(words) // 2
        return [" ".join(words[:half]), " ".join(words[half:])]
    raise AngleError(
        tr(
            "it cannot be read as one position; add hemisphere letters, or "
            "a comma between the angles"
        )
    )


def _is_angle(text: str) -> bool:
    return _PLAIN.fullmatch(text) is not None


def _looks_decimal(text: str) -> bool:
    return re.fullmatch(r"\s*[+-]?[0-9]*[.,][0-9]+\s*", text) is not None


def _name(text: str) -> str:
    text = text.strip(" ,;:|\t\"'")
    numbered = re.fullmatch(r"([0-9]+)[.)]", text)
    return numbered[1] if numbered else text
