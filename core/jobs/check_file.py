"""Whether a file can be used for what it is given for, before it takes the place of another."""

from collections.abc import Callable
from pathlib import Path

from core.files.contingency_file import read_contingencies
from core.files.ground_table import read_ground_table
from core.files.land_paths import find_land
from core.files.limits_file import read_limits
from core.files.marks_file import read_marks
from core.files.ship_file import read_ship
from core.files.streams_file import read_streams

_READERS: dict[str, Callable[[Path], object]] = {
    "ship": read_ship,
    "marks": read_marks,
    "limits": read_limits,
    "streams": read_streams,
    "contingencies": read_contingencies,
    "classes": read_ground_table,
    "land": lambda path: find_land([path]),
}


def check_file(role: str, path: Path) -> None:
    """Read a file for what it is given for; of land, look only whether there is any.

    Parameters
    ----------
    role : str
        As of ``tell_files``, or ``classes``; of others nothing is read.

    Raises
    ------
    InputError
        It cannot be used, in one sentence.
    """
    read = _READERS.get(role)
    if read is not None:
        read(path)
