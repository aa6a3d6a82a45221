"""XML from strangers is read within bounds."""

import time

import pytest

from core.base.errors import InputError
from core.files.reading import blob_of
from core.files.xml_reading import Element, looks_like_xml, parse_xml


def _root(data: bytes) -> Element:
    return parse_xml(blob_of("a.rtz", data))[0]


def _text_of_error(data: bytes) -> str:
    with pytest.raises(InputError) as caught:
        _root(data)
    return str(caught.value)


_REFUSED = (
    "the XML declares a document type or entities, which are not accepted. "
    "Check that it is a route, and export it again."
)


def test_elements_are_known_by_local_name() -> None:
    root = _root(b'<p:a xmlns:p="urn:x" k="1" p:m="2" xmlns:q="urn:y" q:k="3"><b> t </b></p:a>')
    assert (root.name, root.namespace) == ("a", "urn:x")
    assert root.attributes == {"k": "1", "m": "2"}
    assert root.child_text("b") == "t"
    assert root.child_text("c") == ""


def test_an_entity_bomb_is_refused_at_once() -> None:
    lines = ['<!DOCTYPE a [<!ENTITY e0 "ha">']
    lines += [f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' for n in range(1, 12)]
    bomb = ("\n".join(lines) + "]>\n<a>&e11;</a>").encode()
    started = time.perf_counter()
    assert _text_of_error(bomb) == f"a.rtz, line 1: {_REFUSED}"
    assert time.perf_counter() - started < 1.0


def test_an_external_entity_is_refused() -> None:
    data = b'<?xml version="1.0"?>\n<!DOCTYPE a SYSTEM "file:///etc/passwd">\n<a/>'
    assert _text_of_error(data) == f"a.rtz, line 2: {_REFUSED}"


def test_nesting_is_bounded() -> None:
    assert _text_of_error(b"<a>" * 70 + b"</a>" * 70) == (
        "a.rtz, line 1: the XML is nested more than 64 deep. "
        "Check that it is a route, and export it again."
    )


def test_elements_are_counted() -> None:
    assert _text_of_error(b"<a>" + b"<b/>" * 200_001 + b"</a>") == (
        "a.rtz, line 1: the XML has more than 200000 elements. "
        "Check that it is a route, and export it again."
    )


@pytest.mark.parametrize("data", [b"<a>\n<b>", b"<a>\n<b", b"<a>\n<![CDATA[x"])
def test_a_cut_file_is_said_to_be_cut(data: bytes) -> None:
    assert _text_of_error(data) == (
        "a.rtz, line 2: the file is cut short. Export or copy it again."
    )


def test_broken_xml_names_line_and_fault() -> None:
    assert _text_of_error(b"<a>\n<b></a>") == (
        "a.rtz, line 2: the XML is broken (mismatched tag). Export or copy it again."
    )


@pytest.mark.parametrize(
    ("declared", "encoding"),
    [
        ("UTF-8", "utf-8"),
        ("utf-8", "utf-8-sig"),
        ("UTF-16", "utf-16"),
        ("UTF-16", "utf-16-le"),
        ("UTF-16", "utf-16-be"),
        ("windows-1252", "cp1252"),
        ("ISO-8859-1", "latin-1"),
        ("Shift_JIS", "shift_jis"),
        ("GB2312", "gb2312"),
        # An exporter that says UTF-16 and writes UTF-8.
        ("UTF-16", "utf-8"),
    ],
)
def test_declared_encodings(declared: str, encoding: str) -> None:
    word = {"shift_jis": "東京湾", "gb2312": "上海"}.get(encoding, "Malmö")
    text = f'<?xml version="1.0" encoding="{declared}"?>\n<a>{word}</a>'
    data = text.encode(encoding)
    assert looks_like_xml(data)
    assert _root(data).text == word


def test_a_wrong_declaration_of_utf_8_is_read_with_a_finding() -> None:
    data = '<?xml version="1.0" encoding="UTF-8"?><a>Malmö</a>'.encode("cp1252")
    root, findings = parse_xml(blob_of("a.rtz", data))
    assert root.text == "Malmö"
    assert [finding.code for finding in findings] == ["encoding-assumed"]


def test_text_that_is_not_in_its_declared_encoding() -> None:
    data = b'<?xml version="1.0" encoding="Shift_JIS"?><a>\x81</a>'
    assert _text_of_error(data) == (
        "a.rtz: the text is not in the encoding it declares (shift_jis). Export it again as UTF-8."
    )


@pytest.mark.parametrize("codec", ["zlib", "punycode", "unicode_escape", "no-such-thing"])
def test_codecs_that_are_no_code_pages_are_not_used(codec: str) -> None:
    data = f'<?xml version="1.0" encoding="{codec}"?><a>x\\u0041</a>'.encode()
    assert _root(data).text == "x\\u0041"


def test_blank_lines_before_the_declaration_do_no_harm() -> None:
    assert _root(b'\n  <?xml version="1.0"?><a/>').name == "a"
