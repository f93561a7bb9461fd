"""Chunked bodies that are malformed, each in one way (RFC 9112, sections 6.1 and 7.1)."""

from __future__ import annotations

BODY = b'{"designation":"ISO 4032 - M10 - 8","readings":{"width_across_flats":[15.9,15.8]}}'
SIZE = b"%x" % len(BODY)
PATH = "/v1/conformance"
END = b"0\r\n\r\n"
GOOD = SIZE + b"\r\n" + BODY + b"\r\n" + END
LENIENT = frozenset(
    {"line feed alone after the size", "line feed alone after the data", "a length as well", "in HTTP/1.0"}
    | {"size of a thousand zeros", "an extension of 70 kB", "a trailer of 1 MB", "space behind the size"}
    | {"a folded trailer", "tab behind the size"}
)
"""RFC 9112 lets a recipient take these, or leaves it to its limits; if so, the answer is that of the whole body."""
UNKNOWN_CODING = frozenset(
    {"coding gzip", "coding identity", "coding xchunked", "chunked twice", "chunked with a weight"}
)
"""RFC 9112, 6.1: 501 is the proper answer to a transfer coding that is not understood."""


def _sizes() -> dict[str, bytes]:
    return {
        "no size": b"",
        "size that is no number": b"zz",
        "negative size": b"-" + SIZE,
        "size with a plus": b"+" + SIZE,
        "size with 0x": b"0x" + SIZE,
        "space before the size": b" " + SIZE,
        "space behind the size": SIZE + b" ",
        "tab before the size": b"\t" + SIZE,
        "tab behind the size": SIZE + b"\t",
        "two sizes": SIZE + b" " + SIZE,
        "underscore in the size": SIZE[:1] + b"_" + SIZE[1:],
        "size with a point": SIZE + b".0",
        "size in quotes": b'"' + SIZE + b'"',
        "size of 17 digits": b"1" + SIZE.rjust(16, b"0"),
        "size of 40 digits": b"f" * 40,
        "size of a thousand zeros": b"0" * 1000 + SIZE,
        "size with a null byte": SIZE + b"\x00",
        "size in full-width digits": "５２".encode(),
        "size with a hash": SIZE + b"#",
        "size with a bare carriage return": SIZE + b"\r\r",
        "an extension with a null byte": SIZE + b";a=\x00",
        "an extension of 70 kB": SIZE + b";a=" + b"b" * 70_000,
        "size one too large": b"%x" % (len(BODY) + 1),
        "size one too small": b"%x" % (len(BODY) - 1),
        "size far too large": b"%x" % (len(BODY) * 1000),
    }


def _frames() -> dict[str, bytes]:
    start = SIZE + b"\r\n" + BODY
    return {
        "line feed alone after the size": SIZE + b"\n" + BODY + b"\r\n" + END,
        "line feed alone after the data": start + b"\n" + END,
        "carriage return alone after the data": start + b"\r" + END,
        "nothing after the data": start + END,
        "something else after the data": start + b"xx" + END,
        "no last chunk": start + b"\r\n",
        "no end behind the last chunk": start + b"\r\n0\r\n",
        "half a last chunk": start + b"\r\n0",
        "last chunk that is no number": start + b"\r\n?\r\n\r\n",
        "the last chunk comes first": END + start + b"\r\n",
        "cut in the data": start[:-10],
        "cut in the size": SIZE[:1],
        "a trailer without a colon": start + b"\r\n0\r\ntrailer\r\n\r\n",
        "a trailer without a name": start + b"\r\n0\r\n: x\r\n\r\n",
        "a trailer with a space before the colon": start + b"\r\n0\r\na : x\r\n\r\n",
        "a trailer with a null byte": start + b"\r\n0\r\na: \x00\r\n\r\n",
        "a folded trailer": start + b"\r\n0\r\na: x\r\n y\r\n\r\n",
        "a trailer that does not end": start + b"\r\n0\r\na: x",
        "a trailer of 1 MB": start + b"\r\n0\r\na: " + b"x" * 1_000_000 + b"\r\n\r\n",
    }


def _heads() -> dict[str, str]:
    return {
        "a length as well": f"Transfer-Encoding: chunked\r\nContent-Length: {len(GOOD)}",
        "coding gzip": "Transfer-Encoding: gzip",
        "coding identity": "Transfer-Encoding: identity",
        "coding xchunked": "Transfer-Encoding: xchunked",
        "chunked twice": "Transfer-Encoding: chunked, chunked",
        "chunked with a weight": "Transfer-Encoding: chunked;q=1",
        "space before the colon": "Transfer-Encoding : chunked",
        "vertical tab before the coding": "Transfer-Encoding: \x0bchunked",
    }


def _message(transfer: str, content: bytes, version: str = "1.1") -> bytes:
    head = f"POST {PATH} HTTP/{version}\r\nHost: loopback\r\nConnection: close\r\nContent-Type: application/json\r\n"
    return f"{head}{transfer}\r\n\r\n".encode("latin-1") + content


def messages() -> dict[str, bytes]:
    """Each kind with all bytes of its request."""
    usual = "Transfer-Encoding: chunked"
    sizes = {name: _message(usual, size + b"\r\n" + BODY + b"\r\n" + END) for name, size in _sizes().items()}
    frames = {name: _message(usual, frame) for name, frame in _frames().items()}
    heads = {name: _message(head, GOOD) for name, head in _heads().items()}
    return {**sizes, **frames, **heads, "in HTTP/1.0": _message(usual, GOOD, "1.0")}


def well_formed() -> bytes:
    return _message("Transfer-Encoding: chunked", GOOD)
