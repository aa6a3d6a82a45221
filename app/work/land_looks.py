"""Land looked at place by place, so that a place without any does not spoil the others."""

from dataclasses import dataclass
from pathlib import Path

from app.work.core_jobs import CoreJobs
from core.base.errors import InputError
from core.base.language import tr
from core.base.progress import Progress
from core.files.land_shelf import Shelf


@dataclass(frozen=True, slots=True, kw_only=True)
class LandLook:
    """What was found at some places."""

    shelf: Shelf
    """All that is known of land now."""
    good: tuple[Path, ...]
    """Files and folders with land that can be used."""
    troubles: tuple[str, ...]
    """What is wrong with the others, a sentence each."""


def look_at_each(
    jobs: CoreJobs, shelf: Shelf, paths: tuple[Path, ...], progress: Progress
) -> LandLook:
    """Look at files and folders of land; what can be used of none is told, not raised.

    Raises
    ------
    Cancelled
        A stop was asked for.
    """
    good, troubles = [], []
    for path in paths:
        try:
            shelf = jobs.look_at_land(shelf, (path,), progress)
        except InputError as exc:
            troubles.append(str(exc))
            continue
        files = shelf.below((path,)).files
        if any(file.kind != "unusable" for file in files):
            good.append(path)
        elif len(files) == 1:
            troubles.append(files[0].problem)
        else:
            troubles.append(
                tr("{name}: no land data in it that can be used.", name=path.name or str(path))
            )
    return LandLook(shelf=shelf, good=tuple(good), troubles=tuple(troubles))
