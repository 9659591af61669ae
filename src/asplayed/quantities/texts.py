"""What was given, as text."""

from __future__ import annotations

import codecs

from asplayed.errors import BadInput


def decode(found: bytes, called: str) -> str:
    """Bytes as text: UTF-8 or UTF-16 by its mark, else the usual one-byte Western writing of ½ and °."""
    encodings = ("utf-16",) if found.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) else ("utf-8-sig", "cp1252")
    for encoding in encodings:
        try:
            text = found.decode(encoding)
        except UnicodeDecodeError:
            continue
        strange = sum(character < " " and character not in "\t\n\r\f\v" for character in text)
        if "\0" not in text and strange * 50 <= len(text):
            return text
    raise BadInput(f"{called} is not text; save the list as plain text (UTF-8) and give that")
