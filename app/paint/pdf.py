"""Pages into one PDF: vector, grey only, searchable text, equal bytes for equal input."""

import os
import re
import uuid
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from xml.sax.saxutils import escape

from PySide6.QtCore import QBuffer, QByteArray, QHashSeed, QIODevice, QMarginsF, QSizeF, QUuid
from PySide6.QtGui import QPageLayout, QPageSize, QPainter, QPdfWriter

from app.paint.page_painter import PagePainter
from app.paint.palette import PAPER
from app.paint.qt_setup import ensure_gui
from core.files.writing import write_atomic
from core.plan.outcome import Outcome
from core.sheets.page import Page

RESOLUTION_DPI = 600

_DATES = re.compile(rb"/(CreationDate|ModDate) \(D:(\d{14})([^)]*)\)")


def write_pdf(pages: Sequence[Page], path: Path, outcome: Outcome) -> None:
    """Write the sheets of an outcome, whole or not at all.

    Raises
    ------
    OutputError
        The file cannot be written there; what stood there is intact.
    """
    data = pdf_bytes(
        pages,
        title=f"Legsheet: {outcome.plan.passage.name}",
        digest=outcome.digest,
        created_utc=outcome.created_utc,
    )
    write_atomic(path, data)


def pdf_bytes(pages: Sequence[Page], *, title: str, digest: str, created_utc: str) -> bytes:
    """The PDF of some pages.

    Parameters
    ----------
    pages : sequence of Page
        At least one.
    title : str
        Title of the document.
    digest : str
        What the document id is made of: equal digests give equal ids.
    created_utc : str
        ISO 8601 time stamped on the document, unless ``SOURCE_DATE_EPOCH`` gives another.
    """
    if not pages:
        raise ValueError("a document needs a page")
    ensure_gui()
    # Qt writes the fonts in the order of a hash table; with its own seed that order is by chance.
    QHashSeed.setDeterministicGlobalSeed()
    created = stamped_time(created_utc)
    identity = uuid.uuid5(uuid.NAMESPACE_OID, f"legsheet:{digest}")
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(RESOLUTION_DPI)
    writer.setColorModel(QPdfWriter.ColorModel.Grayscale)
    writer.setTitle(title)
    writer.setCreator("legsheet")
    writer.setDocumentId(QUuid(str(identity)))
    writer.setDocumentXmpMetadata(QByteArray(_metadata(title, identity, created)))
    _set_size(writer, pages[0])
    painter = QPainter(writer)
    try:
        artist = PagePainter(PAPER)
        for number, page in enumerate(pages):
            if number:
                painter.resetTransform()
                _set_size(writer, page)
                writer.newPage()
            scale = RESOLUTION_DPI / 25.4
            painter.scale(scale, scale)
            artist.draw(painter, page.items)
    finally:
        painter.end()
    return _with_dates(bytes(buffer.data().data()), created)


def stamped_time(created_utc: str) -> datetime:
    """``SOURCE_DATE_EPOCH`` where it is set to a number, else the time stamped on the outcome."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch.isdigit():
        return datetime.fromtimestamp(int(epoch), tz=UTC)
    return datetime.fromisoformat(created_utc.replace("Z", "+00:00")).astimezone(UTC)


def _set_size(writer: QPdfWriter, page: Page) -> None:
    size = QPageSize(QSizeF(page.width_mm, page.height_mm), QPageSize.Unit.Millimeter)
    writer.setPageSize(size)
    writer.setPageMargins(QMarginsF(0.0, 0.0, 0.0, 0.0), QPageLayout.Unit.Millimeter)


def _metadata(title: str, identity: uuid.UUID, created: datetime) -> bytes:
    """Metadata in place of Qt's own, which would hold the time of writing."""
    moment = created.strftime("%Y-%m-%dT%H:%M:%SZ")
    return (
        '<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?>\n'
        '<x:xmpmeta xmlns:x="adobe:ns:meta/">\n'
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">\n'
        '<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" '
        'xmlns:xmp="http://ns.adobe.com/xap/1.0/" '
        'xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/" '
        f'xmp:CreatorTool="legsheet" xmp:CreateDate="{moment}" xmp:ModifyDate="{moment}" '
        f'xmpMM:DocumentID="uuid:{identity}">\n'
        f'<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{escape(title)}</rdf:li></rdf:Alt>'
        "</dc:title>\n</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n"
        '<?xpacket end="w"?>\n'
    ).encode()


def _with_dates(data: bytes, created: datetime) -> bytes:
    """The same bytes with the stamped time instead of the time of writing; no byte moves."""
    moment = created.strftime("D:%Y%m%d%H%M%SZ").encode()

    def stamp(match: re.Match[bytes]) -> bytes:
        new = b"/" + match.group(1) + b" (" + moment + b")"
        # Qt writes the zone of the machine; what is shorter without it is filled with blanks.
        return new.ljust(len(match.group(0)))

    return _DATES.sub(stamp, data)
