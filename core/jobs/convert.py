"""The job that reads a route of any kind and writes it as RTZ or GPX."""

from pathlib import Path

from core.base.errors import InputError, OutputError
from core.base.findings import Finding
from core.base.language import tr
from core.files.gpx_write import gpx_findings, write_gpx
from core.files.readers import read_passage
from core.files.rtz_write import rtz_findings, write_rtz
from core.files.writing import check_writable, write_atomic


def convert_route(source: Path, target: Path) -> tuple[Finding, ...]:
    """Write the route of one file to another, in the format of the target's suffix.

    Returns
    -------
    tuple of Finding
        What was found reading, and what the target's format cannot hold.

    Raises
    ------
    InputError
        The source is unusable, or the suffix is neither .rtz nor .gpx.
    OutputError
        The target cannot be written, or is the source itself.
    """
    suffix = target.suffix.lower()
    if suffix not in {".rtz", ".gpx"}:
        raise InputError(
            tr("routes are not written as “{ending}”", ending=suffix or target.name),
            where=str(target),
            todo=tr("Name a file that ends in .rtz or .gpx"),
        )
    check_writable((target,))
    route = read_passage(source)
    if target.exists() and target.samefile(source):
        raise OutputError(
            tr("this is the route being read, and parts of it would be lost"),
            where=str(target),
            todo=tr("Choose another name"),
        )
    if suffix == ".rtz":
        data, lost = write_rtz(route.passage), rtz_findings(route.passage, file=target.name)
    else:
        data, lost = write_gpx(route.passage), gpx_findings(route.passage, file=target.name)
    write_atomic(target, data)
    return (*route.findings, *lost)
