"""Files that ship with the program, by name relative to ``resources``."""

from importlib.resources import files


def resource_bytes(name: str) -> bytes:
    """Content of one shipped file.

    Parameters
    ----------
    name : str
        Path below ``resources`` with forward slashes, such as ``fonts/DejaVuSans.ttf``.

    Raises
    ------
    ValueError
        The name leaves ``resources``.
    """
    parts = name.split("/")
    if name.startswith("/") or ".." in parts or "" in parts:
        raise ValueError(f"resource name {name!r} is not relative to the resources")
    place = files("resources")
    for part in parts:
        place = place.joinpath(part)
    return place.read_bytes()
