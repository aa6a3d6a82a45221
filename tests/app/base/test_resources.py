"""Shipped files by name."""

import pytest

from app.base.resources import resource_bytes


def test_the_font_and_its_licence_are_shipped() -> None:
    # TrueType files begin with the version 1.0 (OpenType specification, table directory).
    assert resource_bytes("fonts/DejaVuSans.ttf")[:4] == b"\x00\x01\x00\x00"
    assert b"Bitstream Vera" in resource_bytes("fonts/LICENCE-DejaVu.txt")


@pytest.mark.parametrize("name", ["/etc/hosts", "../pyproject.toml", "fonts//x", "fonts/../x"])
def test_names_that_leave_the_resources_are_refused(name: str) -> None:
    with pytest.raises(ValueError, match="not relative"):
        resource_bytes(name)
