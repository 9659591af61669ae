"""Records as plain JSON values: the one place that says what a record looks like outside."""

from __future__ import annotations

from enum import Enum
from typing import Any

import msgspec

from asplayed.quantities.figures import Figure

_AS_THEY_ARE = frozenset({str, int, float, bool, type(None)})


def plain(record: Any) -> Any:
    """`record` as dicts, lists, texts and numbers. A figure keeps value, unit, source, and band and reason if any.

    >>> from asplayed.quantities.figures import figure
    >>> plain(figure(36.5, "in", "stated"))
    {'value': 36.5, 'unit': 'in', 'source': 'stated'}
    """
    if type(record) in _AS_THEY_ARE:
        return record
    if isinstance(record, Figure):
        found: dict[str, Any] = {"value": record.value, "unit": record.unit}
        for key in ("low", "high"):
            if getattr(record, key) is not None:
                found[key] = getattr(record, key)
        found["source"] = record.source.value
        if record.why is not None:
            found["why"] = record.why
        return found
    if isinstance(record, msgspec.Struct):
        return {key: plain(getattr(record, key)) for key in record.__struct_fields__}
    if isinstance(record, dict):
        return {key: plain(value) for key, value in record.items()}
    if isinstance(record, tuple | list):
        return [plain(value) for value in record]
    if isinstance(record, Enum):
        return record.value
    return record
