"""XML from strangers: no document type, no entities, bounded depth and count."""

import codecs
import re
from dataclasses import dataclass, field
from xml.parsers import expat

from core.base.errors import InputError
from core.base.findings import Finding
from core.base.language import tr
from core.files.reading import Blob, blob_of, decode_text
from core.files.route_parts import error_at

_LIMIT_DEPTH = 64
_LIMIT_ELEMENTS = 200_000

_DECLARED = re.compile(rb"""<\?xml[^>]{0,200}?encoding\s*=\s*["']([A-Za-z0-9._-]{1,40})["']""")
# Single-byte and East Asian code pages that routes may be written in; no codec that unpacks.
_ALLOWED = re.compile(
    r"(utf-?8|utf-?16(-?[lb]e)?|ascii|iso-?8859-?\d+|cp\d+|koi8-[ru]|mac-roman|tis-620"
    r"|shift_jis|euc_jp|euc_kr|gb2312|gbk|gb18030|big5)"
)
_CUT_SHORT = {
    expat.errors.codes[message]
    for message in (
        expat.errors.XML_ERROR_NO_ELEMENTS,
        expat.errors.XML_ERROR_UNCLOSED_TOKEN,
        expat.errors.XML_ERROR_PARTIAL_CHAR,
        expat.errors.XML_ERROR_UNCLOSED_CDATA_SECTION,
    )
}


@dataclass(slots=True)
class Element:
    """An element by its local name, with the attributes that are its own."""

    name: str
    namespace: str
    line: int
    attributes: dict[str, str] = field(default_factory=dict)
    children: list["Element"] = field(default_factory=list)
    text: str = ""

    def child(self, name: str) -> "Element | None":
        """First child of a name."""
        return next(iter(self.all(name)), None)

    def all(self, name: str) -> list["Element"]:
        """Children of a name, in order."""
        return [child for child in self.children if child.name == name]

    def child_text(self, name: str) -> str:
        """Text of the first child of a name, empty if there is none."""
        child = self.child(name)
        return child.text.strip() if child is not None else ""


def looks_like_xml(data: bytes) -> bool:
    """Whether the first character, whatever the encoding, is «<»."""
    for mark in (codecs.BOM_UTF8, codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE):
        data = data.removeprefix(mark)
    return data[:2000].lstrip(b" \t\r\n\x00").startswith(b"<")


def parse_xml(blob: Blob) -> tuple[Element, tuple[Finding, ...]]:
    """Read a document into a tree of elements.

    Raises
    ------
    InputError
        Not well formed, cut short, a document type or entity declared, too deep, too many
        elements.
    """
    text, findings = _decoded(blob)
    builder = _Builder(blob.name)
    parser = builder.parser
    try:
        parser.Parse(text.lstrip().encode("utf-8"), True)
    except expat.ExpatError as exc:
        if exc.code in _CUT_SHORT:
            what = tr("the file is cut short")
        else:
            what = tr("the XML is broken ({reason})", reason=expat.ErrorString(exc.code))
        raise error_at(
            what, file=blob.name, line=exc.lineno, todo=tr("Export or copy it again")
        ) from exc
    if builder.root is None:
        raise error_at(
            tr("the file is cut short"), file=blob.name, todo=tr("Export or copy it again")
        )
    return builder.root, findings


def _decoded(blob: Blob) -> tuple[str, tuple[Finding, ...]]:
    """Text by byte order mark, by the declared encoding, else as any text file."""
    data = blob.data
    for start, encoding in ((b"<\x00", "utf-16-le"), (b"\x00<", "utf-16-be")):
        if data.startswith(start):
            return _decoded_as(blob, encoding), ()
    declared = _DECLARED.match(data[:400].lstrip())
    if declared is None:
        return decode_text(blob)
    name = declared.group(1).decode("ascii")
    try:
        encoding = codecs.lookup(name).name
    except LookupError:
        return decode_text(blob)
    if encoding in {"utf-8", "utf-16"} or not _ALLOWED.fullmatch(encoding):
        # «utf-16» written in bytes that are plainly not: an exporter's slip, common in the wild.
        return decode_text(blob)
    return _decoded_as(blob, encoding), ()


def _decoded_as(blob: Blob, encoding: str) -> str:
    try:
        return blob.data.decode(encoding)
    except UnicodeDecodeError as exc:
        raise InputError(
            tr("the text is not in the encoding it declares ({encoding})", encoding=encoding),
            where=blob.name,
            todo=tr("Export it again as UTF-8"),
        ) from exc


class _Builder:
    """Handlers of one parse; every declaration that could do harm is refused."""

    def __init__(self, file: str) -> None:
        self.root: Element | None = None
        self._file = file
        self._open: list[Element] = []
        self._texts: list[list[str]] = []
        self._count = 0
        self.parser = expat.ParserCreate(encoding="utf-8", namespace_separator=" ")
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._characters
        self.parser.StartDoctypeDeclHandler = self._refuse
        self.parser.EntityDeclHandler = self._refuse
        self.parser.ExternalEntityRefHandler = self._refuse
        self.parser.SkippedEntityHandler = self._refuse

    def _start(self, tag: str, attributes: dict[str, str]) -> None:
        self._count += 1
        if self._count > _LIMIT_ELEMENTS:
            raise self._error(
                tr("the XML has more than {most_elements} elements", most_elements=_LIMIT_ELEMENTS)
            )
        if len(self._open) >= _LIMIT_DEPTH:
            raise self._error(
                tr("the XML is nested more than {most_levels} deep", most_levels=_LIMIT_DEPTH)
            )
        namespace, name = _split(tag)
        element = Element(name=name, namespace=namespace, line=self.parser.CurrentLineNumber)
        for key, value in attributes.items():
            key_namespace, key_name = _split(key)
            if key_namespace in {"", namespace}:
                element.attributes[key_name] = value
        if self._open:
            self._open[-1].children.append(element)
        else:
            self.root = element
        self._open.append(element)
        self._texts.append([])

    def _end(self, _tag: str) -> None:
        self._open.pop().text = "".join(self._texts.pop())

    def _characters(self, text: str) -> None:
        if self._texts:
            self._texts[-1].append(text)

    def _refuse(self, *_arguments: object) -> int:
        raise self._error(
            tr("the XML declares a document type or entities, which are not accepted")
        )

    def _error(self, what: str) -> InputError:
        return error_at(
            what,
            file=self._file,
            line=self.parser.CurrentLineNumber,
            todo=tr("Check that it is a route, and export it again"),
        )


def _split(tag: str) -> tuple[str, str]:
    namespace, _space, name = tag.rpartition(" ")
    return namespace, name


def text_blob(name: str, text: str) -> Blob:
    """Text from memory as a blob, in UTF-8."""
    return blob_of(name, text.encode("utf-8", errors="replace"))
