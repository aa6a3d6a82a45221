"""What is made of a plan to look at, compare and print; the worker makes it."""

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtWidgets import QWidget

from app.paint.measure import QtMeasure
from app.paint.palette import Palette
from app.state.document import Document
from app.state.notices import NoticeKind
from app.window.ask import Ask
from app.window.offings_dialog import OffingsDialog
from app.window.printing import ask_printer, numbers_chosen, print_pages
from app.window.seen_dialog import SeenDialog
from app.window.sheets_dialog import SheetsDialog
from app.work.core_jobs import CoreJobs
from app.work.plan_job import PlanJob
from core.base.language import tr
from core.base.progress import Progress, Span
from core.plan.observed_result import ObservedReport
from core.plan.offing_result import OffingTable
from core.plan.outcome import Outcome
from core.sheets.page import Page


def _make_pages(outcome: Outcome, progress: Progress) -> tuple[Page, ...]:
    from core.jobs.check_pictures import anchorage_pictures, check_pictures, landfall_pictures
    from core.sheets.book import make_book

    pictures = check_pictures(outcome, Span(progress, 0.0, 0.9))
    landfalls = landfall_pictures(outcome, Span(progress, 0.9, 0.95))
    anchorage = anchorage_pictures(outcome, Span(progress, 0.95, 1.0))
    return make_book(outcome, QtMeasure(), pictures, landfalls, anchorage)


def _write_pages(pages: Sequence[Page], path: Path, outcome: Outcome) -> None:
    from app.paint.outputs import write_sheets

    write_sheets(pages, path, outcome)


class SheetActions:
    """Preview and print, offings, what was seen."""

    def __init__(
        self,
        window: QWidget,
        document: Document,
        job: PlanJob,
        jobs: CoreJobs,
        ask: Ask,
        light: Callable[[], Palette],
        export_pdf: Callable[[], None],
    ) -> None:
        self._window = window
        self._document = document
        self._job = job
        self._jobs = jobs
        self._ask = ask
        self._light = light
        self._export_pdf = export_pdf

    def preview(self) -> None:
        """Make the pages and show them as they will print."""
        outcome = self._document.outcome
        if outcome is not None:
            self._job.run(
                tr("Making the sheets"),
                lambda progress: _make_pages(outcome, progress),
                self._show_pages,
            )

    def _show_pages(self, pages: tuple[Page, ...]) -> None:
        def export(numbers: tuple[int, ...]) -> None:
            if len(numbers) == len(pages):
                self._export_pdf()
            else:
                self._export_pages([pages[number - 1] for number in numbers])

        dialog = SheetsDialog(
            self._light(),
            print_them=self.print_numbers,
            export_them=export,
            is_stale=self._document.is_stale,
            parent=self._window,
        )
        room = self._window.size()
        dialog.resize(min(760, room.width() - 40), room.height() - 20)
        dialog.show_pages(pages)
        dialog.exec()
        dialog.deleteLater()

    def _export_pages(self, pages: Sequence[Page]) -> None:
        """Ask for a file and write some pages, numbered as in the whole book."""
        outcome = self._document.outcome
        path = self._ask.target(tr("Chosen pages as PDF"), "pdf", "sheets-pages.pdf", "pdf")
        if outcome is None or path is None:
            return
        self._job.run(
            tr("Writing {name}", name=path.name),
            lambda _progress: _write_pages(pages, path, outcome),
            lambda _none: self._document.notices.post(
                NoticeKind.DONE, tr("Written: {name}", name=path.name)
            ),
        )

    def compare_offings(self) -> None:
        """Show the chosen leg beside itself at other offings."""
        leg_number = self._document.leg_index + 1
        kept = self._document.project_to_keep

        def compare(shifts_m: tuple[float, ...], show: Callable[[OffingTable], None]) -> None:
            self._job.run(
                tr("Comparing offings of leg {leg_number}", leg_number=leg_number),
                lambda progress: self._jobs.compare_offings(
                    self._jobs.make_request(kept), leg_number, shifts_m, progress
                ),
                show,
            )

        dialog = OffingsDialog(self._document, compare, self._job.stop, self._window)
        room = self._window.size()
        dialog.resize(room.width() - 60, room.height() - 60)
        dialog.exec()
        dialog.deleteLater()

    def compare_seen(self) -> None:
        """Ask for first paints that were seen and set them beside those of the plan."""
        outcome = self._document.outcome
        path = self._ask.file(tr("First paints that were seen"), "seen") if outcome else None
        if outcome is not None and path is not None:
            self._job.run(
                tr("Comparing {name} with the plan", name=path.name),
                lambda _progress: self._jobs.compare_seen(outcome, path),
                self._show_seen,
            )

    def _show_seen(self, report: ObservedReport) -> None:
        dialog = SeenDialog(report, self._window)
        room = self._window.size()
        dialog.resize(min(980, room.width() - 60), room.height() - 80)
        dialog.exec()
        dialog.deleteLater()

    def print_sheets(self) -> None:
        """Ask for a printer and print the whole book on it."""
        self.print_numbers(())

    def print_numbers(self, numbers: tuple[int, ...]) -> None:
        """Ask for a printer and print pages of the book on it, all where no number is given."""
        outcome = self._document.outcome
        if outcome is None:
            return
        printer = ask_printer(self._window)
        if printer is None:
            return

        def work(progress: Progress) -> None:
            pages = _make_pages(outcome, Span(progress, 0.0, 0.5))
            # Numbers chosen at the printer, too, are those of the whole book.
            kept = numbers or tuple(range(1, len(pages) + 1))
            at_printer = numbers_chosen(printer, len(pages))
            chosen = [pages[number - 1] for number in kept if number in at_printer]
            print_pages(printer, chosen, Span(progress, 0.5, 1.0))

        self._job.run(tr("Printing"), work, lambda _none: self._told())

    def _told(self) -> None:
        words = tr("Sheets sent to the printer.")
        if self._document.is_stale:
            words = tr(
                "Sheets sent to the printer. "
                "They are of the plan before the last changes of the inputs."
            )
        self._document.notices.post(NoticeKind.DONE, words)
