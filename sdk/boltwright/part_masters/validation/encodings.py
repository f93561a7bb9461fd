"""How a catalogue is encoded: by its mark, by what is stated, or by its bytes; the rule of the service."""

from __future__ import annotations

import codecs
import re

#: Longer marks first: that of UTF-32 begins with that of UTF-16.
_MARKS = (
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
#: Aliases that the codecs of Python lack, without signs.
_ALIASES = {
    "utf8bom": "utf-8",
    "utf8mb4": "utf-8",
    "unicode11utf8": "utf-8",
    "utf16le": "utf-16-le",
    "utf16be": "utf-16-be",
    "utf32le": "utf-32-le",
    "utf32be": "utf-32-be",
    "unicode": "utf-16",
    "ucs2": "utf-16",
    "iso10646ucs2": "utf-16",
    "ansi": "cp1252",
    "cp1200": "utf-16-le",
    "cp1201": "utf-16-be",
    "cp65001": "utf-8",
    "cp28591": "latin-1",
    "cp31j": "cp932",
}
_PAGE = re.compile(r"(?:windows|win|cp|ibm|ccsid|ms|pc|codepage)0*(\d{2,5}j?)(?:multilingual|p)?")
_LONGEST_NAME = 60
#: Name of the error handler that reads bytes that are no UTF-8 as Windows-1252.
MIXED = "boltwright.catalogue.windows-1252"


def codec_of(name: str) -> str:
    """Return the codec of an encoding's name: of the IANA registry, an alias, or what Python calls it.

    Raises:
        ValueError: no text is encoded so.
    """
    bare = re.sub(r"[^a-z0-9]", "", name[:_LONGEST_NAME].lower())
    short = re.sub(r"^(?:cs|x)(?=[a-z])", "", bare)
    page = _PAGE.fullmatch(short)
    numbered = f"cp{page[1]}" if page else short
    for tried in (_ALIASES.get(numbered), name[:_LONGEST_NAME].strip(), numbered, bare):
        try:
            found = codecs.lookup(tried or "")
            # Codecs such as rot13 and hex are none of a text.
            bytes(4).decode(found.name)
        except (LookupError, ValueError):
            continue
        return "utf-8" if found.name == "utf-8-sig" else found.name
    raise ValueError(f"there is no encoding {name!r}; try utf-8, utf-16, windows-1252 or iso-8859-1")


def encoding_of(head: bytes, stated: str | None = None) -> tuple[str, str]:
    """Return the codec of a text that begins with `head`, and how its errors are handled; `stated` is a codec.

    A mark counts first, then what is stated; UTF-16 without a mark is told by its zeros. Else it is UTF-8, then
    Windows-1252, also byte by byte, where the first umlaut stands behind `head`.
    """
    for mark, codec in _MARKS:
        if head.startswith(mark):
            return codec, "replace"
    if stated in ("utf-16", "utf-32"):
        return f"{stated}-{'be' if head[:1] == bytes(1) else 'le'}", "replace"
    if stated not in (None, "ascii"):
        return str(stated), "replace"
    if b"\0" in head[:2]:
        return ("utf-16-be" if head[:1] == b"\0" else "utf-16-le"), "replace"
    try:
        # The last character may be cut in two.
        codecs.getincrementaldecoder("utf-8")().decode(head)
    except UnicodeDecodeError:
        return "cp1252", "replace"
    return "utf-8", MIXED


def _as_windows_1252(error: UnicodeError) -> tuple[str, int]:
    assert isinstance(error, UnicodeDecodeError)
    return error.object[error.start : error.end].decode("cp1252", "replace"), error.end


codecs.register_error(MIXED, _as_windows_1252)
