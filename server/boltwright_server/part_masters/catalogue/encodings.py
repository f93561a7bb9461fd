"""How a file of text is encoded: by its mark, by what is stated, or by its bytes.

A byte order mark counts before what is stated, and is no part of the text (WHATWG Encoding Standard, "decode"). Names
are those of the IANA registry of character sets, their aliases, and the words that spreadsheets and databases use.
"""

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
_PAGES = (437, 720, 737, 775, 850, 852, 855, 857, 858, 860, 861, 862, 863, 864, 865, 866, 869, 874, 932, 949, 950)
#: What a file of text is written in; codecs for anything else (addresses, escapes) are none.
_KNOWN = frozenset(
    (
        *("utf-8", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "utf-32-le", "utf-32-be", "ascii"),
        *(f"iso8859-{part}" for part in (*range(1, 12), *range(13, 17))),
        *(f"cp{page}" for page in (*_PAGES, *range(1250, 1259))),
        *("mac-roman", "mac-latin2", "koi8-r", "koi8-u", "tis-620"),
        *("gb2312", "gbk", "gb18030", "big5", "shift_jis", "euc_jp", "euc_kr", "iso2022_jp"),
    )
)
#: Aliases that the codecs of Python lack.
_ALIASES = {
    "utf8bom": "utf-8",
    "utf8sig": "utf-8",
    "utf8mb4": "utf-8",
    "cp65001": "utf-8",
    "unicode11utf8": "utf-8",
    "unicode": "utf-16",
    "utf16le": "utf-16-le",
    "utf16be": "utf-16-be",
    "utf32le": "utf-32-le",
    "utf32be": "utf-32-be",
    "ucs2": "utf-16",
    "ucs4": "utf-32",
    "iso10646ucs2": "utf-16",
    "iso10646ucs4": "utf-32",
    "cp1200": "utf-16-le",
    "cp1201": "utf-16-be",
    "ansi": "cp1252",
    "cp28591": "latin-1",
    "cp31j": "cp932",
    "pcmultilingual850euro": "cp858",
}
_LONGEST_NAME = 60
_PAGE = re.compile(r"(?:windows|win|cp|ibm|ccsid|ms|pc|codepage)0*(\d{2,5}j?)(?:multilingual|p)?")
#: Name of the error handler that reads bytes that are no UTF-8 as Windows-1252.
MIXED = "boltwright.windows-1252"


def codec_of(name: str) -> str | None:
    """Return the codec of an encoding's name (`windows-1252`, `utf8`, `csISOLatin1`), None where no text has it."""
    # The first two are spelt as they come, `ISO_8859-1:1987`; then without signs and the marks of private names.
    bare = re.sub(r"[^a-z0-9]", "", name[:_LONGEST_NAME].lower())
    short = re.sub(r"^(?:cs|x)(?=[a-z])", "", bare)
    page = _PAGE.fullmatch(short)
    numbered = f"cp{page[1]}" if page else short
    for tried in (_ALIASES.get(numbered), name[:_LONGEST_NAME].strip(), numbered, bare):
        try:
            found = codecs.lookup(tried or "").name
        except (LookupError, ValueError):
            continue
        found = "utf-8" if found == "utf-8-sig" else found
        if found in _KNOWN:
            return found
    return None


def encoding_of(head: bytes, stated: str | None = None) -> tuple[str, str]:
    """Return the codec of a text that begins with `head`, and how its errors are handled.

    A mark counts first, then the codec that is stated; UTF-16 without a mark is told by its zeros. Else it is UTF-8,
    then Windows-1252, which plants still export: also byte by byte, where the first umlaut stands behind `head`.
    US-ASCII is a part of both, and programs state it without looking.
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
