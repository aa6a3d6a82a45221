"""Arrays that cross from one stage to the next: owned, read-only, of a known kind."""

from collections.abc import Callable
from dataclasses import fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
Float32Array = NDArray[np.float32]
IntArray = NDArray[np.int64]
Int32Array = NDArray[np.int32]
ByteArray = NDArray[np.uint8]
ShortArray = NDArray[np.uint16]
BoolArray = NDArray[np.bool_]
Floats = FloatArray | float
"""One number, or many that are broadcast against each other."""


def _rebuild(cls: type[Any], values: dict[str, Any]) -> Any:  # noqa: ANN401 - any dataclass
    return cls(**values)


class HoldsArrays:
    """Mixin for frozen dataclasses with array fields: makes them read-only, also after a pickle.

    numpy forgets the read-only flag when pickled, so the object is built anew instead.
    """

    __slots__ = ()

    def __post_init__(self) -> None:
        """Clear the writeable flag of every array field."""
        for field in fields(self):  # type: ignore[arg-type]  # the mixin is only used on dataclasses
            value = getattr(self, field.name)
            if isinstance(value, np.ndarray):
                value.setflags(write=False)

    def __reduce__(self) -> tuple[Callable[..., Any], tuple[Any, ...]]:
        """Rebuild through the constructor, so that the flags are set again."""
        names = [field.name for field in fields(self)]  # type: ignore[arg-type]  # as above
        return _rebuild, (type(self), {name: getattr(self, name) for name in names})
