"""Reads the few options of curl that the documentation uses."""

from __future__ import annotations

import re
import shlex
from dataclasses import dataclass, field
from urllib.parse import quote_plus, urlsplit

#: The address at which the documentation shows the service.
SHOWN = "http://127.0.0.1:8765"
#: Where curl writes the answer is no matter of the request.
_OUTPUT = re.compile(r" -o \S+")
_WITHOUT_VALUE = ("-s", "-S", "-sS", "--silent", "--show-error")


@dataclass(slots=True)
class Asked:
    """One request."""

    method: str = "GET"
    path: str = "/"
    query: str = ""
    headers: dict[str, str] = field(default_factory=dict)
    body: bytes | None = None


def parse(command: str) -> Asked:
    """Return the request that a curl command sends.

    Raises:
        ValueError: an option that this reader does not know; add it here, or write the example without it.
    """
    words = iter(shlex.split(_OUTPUT.sub("", command.replace("\\\n", " "))))
    if next(words) != "curl":
        raise ValueError(f"no curl command: {command}")
    asked, data, as_query = Asked(), [], False
    for word in words:
        if word in ("-G", "-sG", "--get"):
            as_query = True
        elif word in ("-H", "--header"):
            name, value = next(words).split(":", 1)
            asked.headers[name] = value.strip()
        elif word in ("-d", "--data", "--data-urlencode"):
            value = next(words)
            data.append(_encoded(value) if word == "--data-urlencode" else value)
        elif word.startswith(SHOWN):
            parts = urlsplit(word)
            asked.path, asked.query = parts.path, parts.query
        elif word not in _WITHOUT_VALUE:
            raise ValueError(f"curl option {word!r} is not known to the documentation's tests")
    if as_query:
        asked.query = "&".join(filter(None, [asked.query, *data]))
    elif data:
        asked.method, asked.body = "POST", "&".join(data).encode()
    return asked


def _encoded(value: str) -> str:
    name, _, text = value.partition("=")
    return f"{name}={quote_plus(text)}"
