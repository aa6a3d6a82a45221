"""Versions of the project file: what an older one lacks is filled in, step by step."""

from collections.abc import Callable
from typing import Any

VERSION = 3


def _from_1(document: dict[str, Any]) -> dict[str, Any]:
    """Version 2 added inputs kept in the project itself; an older one has none of them."""
    return {**document, "version": 2}


def _from_2(document: dict[str, Any]) -> dict[str, Any]:
    """Version 3 added choices for a part of a leg; those of an older one are for whole legs."""
    return {**document, "version": 3}


_STEPS: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {1: _from_1, 2: _from_2}


def brought_up(document: dict[str, Any]) -> dict[str, Any]:
    """The document as this version writes it.

    Raises
    ------
    ValueError
        Of a version newer than this program, or of none.
    """
    version = document.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or not 1 <= version <= VERSION:
        raise ValueError(f"the project has version {version!r}, this program knows {VERSION}")
    while document["version"] < VERSION:
        document = _STEPS[document["version"]](document)
    return document
