"""First paints that were seen as rows of the window."""

from app.views.table_model import Row
from core.base.language import tr
from core.plan.observed_result import ObservedReport
from core.words.observed_words import OBSERVED_HEADS, observed_cells

SEEN_HEADS = (*OBSERVED_HEADS, tr("why no ratio"))


def seen_rows(report: ObservedReport) -> tuple[Row, ...]:
    """One row a sighting, in the order of the voyage."""
    return tuple(Row(cells=(*observed_cells(item), item.why)) for item in report.comparisons)
