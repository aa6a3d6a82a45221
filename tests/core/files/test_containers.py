"""The zipped container."""

import hashlib
import io
import zipfile
from pathlib import Path

import pytest

from core.base.errors import InputError
from core.files.readers import passage_from_blob
from core.files.reading import blob_of

_ROUTE = (Path(__file__).parents[2] / "data" / "routes" / "invented_strait.rtz").read_bytes()


def _zip(*members: tuple[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", method) as archive:
        for name, data in members:
            archive.writestr(name, data)
    return stream.getvalue()


def _text_of_error(data: bytes) -> str:
    with pytest.raises(InputError) as caught:
        passage_from_blob(blob_of("a.rtzp", data))
    return str(caught.value)


@pytest.mark.parametrize(
    "method", [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED, zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA]
)
def test_the_one_route_among_attachments_is_read(method: int) -> None:
    data = _zip(
        ("folder/Strait.RTZ", _ROUTE),
        ("__MACOSX/folder/._Strait.rtz", b"x"),
        ("notes.pdf", b"%PDF"),
        method=method,
    )
    route = passage_from_blob(blob_of("a.rtzp", data))
    assert (route.kind, route.name) == ("RTZ 1.1 in a zip file", "a.rtzp")
    assert route.passage.name == "Invented strait"
    assert route.sha256 == hashlib.sha256(data).hexdigest()


def test_an_error_inside_names_both_files() -> None:
    assert _text_of_error(_zip(("b.rtz", b"<route>"))) == (
        "a.rtzp (b.rtz), line 1: the file is cut short. Export or copy it again."
    )


def test_no_route_inside() -> None:
    assert _text_of_error(_zip(("a.docx", b"x"))) == (
        "a.rtzp: the zip file holds no .rtz route. Choose another file."
    )
    assert _text_of_error(_zip()) == (
        "a.rtzp: the zip file holds no .rtz route. Choose another file."
    )


def test_several_routes_inside() -> None:
    assert _text_of_error(_zip(("b.rtz", _ROUTE), ("c.rtz", _ROUTE))) == (
        "a.rtzp: the zip file holds 2 routes (b.rtz, c.rtz). Take the one you want out of it."
    )


def test_an_empty_route_inside() -> None:
    assert _text_of_error(_zip(("b.rtz", b""))) == (
        "a.rtzp: the route in the zip file is empty. Copy it again."
    )


def test_a_bomb_is_refused_by_its_ratio() -> None:
    assert _text_of_error(_zip(("b.rtz", bytes(10_000_000)))) == (
        "a.rtzp: the route in the zip file is packed tighter than 500 to 1. "
        "Check where the file comes from."
    )


def test_a_bomb_is_refused_by_its_size() -> None:
    assert _text_of_error(_zip(("b.rtz", bytes(33 * 1024 * 1024)))) == (
        "a.rtzp: the route in the zip file is larger than 32 MB. Check that it is the right file."
    )


def test_a_bomb_that_lies_about_its_size_is_refused() -> None:
    data = bytearray(_zip(("b.rtz", bytes(10_000_000))))
    directory = data.index(b"PK\x01\x02")
    data[directory + 24 : directory + 28] = (1000).to_bytes(4, "little")
    assert _text_of_error(bytes(data)) == (
        "a.rtzp: the zip file is damaged, cut short or encrypted. "
        "Copy it again, or take the route out of it."
    )


def test_members_are_counted() -> None:
    members = [(f"{n}.txt", b"") for n in range(1001)]
    assert _text_of_error(_zip(*members)) == (
        "a.rtzp: the zip file has more than 1000 members. Take the route out of it."
    )


def test_damage_and_encryption() -> None:
    sentence = (
        "a.rtzp: the zip file is damaged, cut short or encrypted. "
        "Copy it again, or take the route out of it."
    )
    data = _zip(("b.rtz", _ROUTE))
    assert _text_of_error(data[:200]) == sentence
    broken = bytearray(data)
    broken[80:120] = bytes(40)
    assert _text_of_error(bytes(broken)) == sentence
    encrypted = bytearray(data)
    encrypted[6] |= 1
    encrypted[data.index(b"PK\x01\x02") + 8] |= 1
    assert _text_of_error(bytes(encrypted)) == sentence
