"""All files of one plan, written together: every one of them, or none."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from app.paint.measure import QtMeasure
from app.paint.pdf import write_pdf
from app.paint.qt_setup import ensure_gui
from core.base.language import tr
from core.base.progress import Progress, Span
from core.files.plan_csv import index_table_bytes, wheel_over_table_bytes
from core.files.plan_geojson import geojson_bytes
from core.files.plan_json import plan_bytes
from core.files.writing import atomic_targets
from core.jobs.check_pictures import anchorage_pictures, check_pictures, landfall_pictures
from core.plan.outcome import Outcome
from core.sheets.book import make_book
from core.sheets.page import Page
from core.sheets.revision_marks import changed_pages


@dataclass(frozen=True, slots=True, kw_only=True)
class OutputPaths:
    """Where each kind of output goes; None is not wanted."""

    pdf: Path | None = None
    json: Path | None = None
    geojson: Path | None = None
    csv: Path | None = None

    @property
    def wheel_over_csv(self) -> Path | None:
        """The wheel-over table stands beside the index table."""
        if self.csv is None:
            return None
        return self.csv.with_name(f"{self.csv.stem}-wheelover{self.csv.suffix}")

    def named(self) -> tuple[Path, ...]:
        """Every file that will be written."""
        paths = (self.pdf, self.json, self.geojson, self.csv, self.wheel_over_csv)
        return tuple(path for path in paths if path is not None)


def write_sheets(pages: Sequence[Page], path: Path, outcome: Outcome) -> None:
    """Write some pages as PDF, whole or not at all.

    Raises
    ------
    OutputError
        The file cannot be written; what stood there is intact.
    """
    with atomic_targets((path,)) as (temporary,):
        ensure_gui()
        write_pdf(pages, temporary, outcome)


def write_outputs(
    outcome: Outcome, paths: OutputPaths, progress: Progress, *, is_changed_only: bool = False
) -> None:
    """Write what is wanted; of the sheets, if asked, only those that changed in this revision.

    Raises
    ------
    OutputError
        One file cannot be written; then none is, and what stood there is intact.
    """
    if not paths.named():
        return
    with atomic_targets(paths.named()) as temporaries:
        places = dict(zip(paths.named(), temporaries, strict=True))
        if paths.json is not None:
            progress.report(0.1, tr("writing the plan file"))
            places[paths.json].write_bytes(plan_bytes(outcome))
        if paths.geojson is not None:
            progress.report(0.2, tr("writing the coverage"))
            places[paths.geojson].write_bytes(geojson_bytes(outcome))
        if paths.csv is not None and paths.wheel_over_csv is not None:
            progress.report(0.3, tr("writing the tables"))
            places[paths.csv].write_bytes(index_table_bytes(outcome))
            places[paths.wheel_over_csv].write_bytes(wheel_over_table_bytes(outcome))
        if paths.pdf is not None:
            pictures = check_pictures(outcome, Span(progress, 0.4, 0.75))
            landfalls = landfall_pictures(outcome, Span(progress, 0.75, 0.78))
            anchorage = anchorage_pictures(outcome, Span(progress, 0.78, 0.8))
            progress.report(0.8, tr("drawing the sheets"))
            ensure_gui()
            pages = make_book(outcome, QtMeasure(), pictures, landfalls, anchorage)
            if is_changed_only:
                pages = changed_pages(outcome, pages)
            write_pdf(pages, places[paths.pdf], outcome)
        progress.report(1.0)
