"""What an engine says when it gives no number. Each is a client's matter, never a fault of the service.

Refusal
├── NotUnderstood     the text or member cannot be read
├── UnknownName       readable, but no such standard, size, class or characteristic; carries the nearest
├── NotStandardised   known, but the standard leaves this combination empty
│   └── OutsideScope  the standard does not reach this size or form: what holds there is as agreed
├── NotCovered        standardised, but the service does not hold it (or holds it too uncertainly to publish)
└── Contradiction     members that cannot hold together
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager


class Refusal(Exception):
    """Root of the refusals. `code` is stable, `member` names the request member, `also` those with the same
    fault, `detail` says what would be right.

    Of a text that was read, `position` is the index of the character where reading stopped, or of the part that was
    refused; `expected` says what would be right there. `more` are further members of the problem document, with the
    figures that led to the refusal.
    """

    code = "refused"

    def __init__(
        self,
        detail: str,
        *,
        member: str = "",
        also: Sequence[str] = (),
        code: str | None = None,
        nearest: Sequence[str] = (),
        position: int | None = None,
        expected: Sequence[str] = (),
        more: Mapping[str, object] | None = None,
    ) -> None:
        super().__init__(detail)
        self.detail = detail
        self.member = member
        self.also = tuple(also)
        self.code = code or type(self).code
        self.nearest = tuple(nearest)
        self.position = position
        self.expected = tuple(expected)
        self.more = dict(more or {})


class NotUnderstood(Refusal):
    """The text or member cannot be read."""

    code = "not_understood"


class UnknownName(Refusal):
    """No such standard, size, class or characteristic."""

    code = "unknown_name"


class NotStandardised(Refusal):
    """The standard gives no value for this combination."""

    code = "not_standardised"


class OutsideScope(NotStandardised):
    """The standard does not reach this size or form; a product of it exists all the same, with strength as agreed."""


class NotCovered(Refusal):
    """Standardised, but the service gives no value for it."""

    code = "not_covered"


class Contradiction(Refusal):
    """Members that cannot hold together."""

    code = "contradiction"


def member_path(*members: str) -> str:
    """Return the path to a nested member, escaped as RFC 6901 asks where a client chose the names."""
    return "/".join(member.replace("~", "~0").replace("/", "~1") for member in members)


@contextmanager
def at_position(position: int | None) -> Iterator[None]:
    """Let a refusal name the place in the text of the part that it refuses, unless it knows a closer one."""
    try:
        yield
    except Refusal as refusal:
        if refusal.position is None:
            refusal.position = position
        raise


@contextmanager
def asked_as(member: str) -> Iterator[None]:
    """Let every refusal name the request member in which the client asked, whatever the engine calls it."""
    try:
        yield
    except Refusal as refusal:
        refusal.member = member
        raise
