"""What the SDK raises.

Error
├── TransportError              no answer came
│   ├── ConnectionFailed        refused, reset, or no such host
│   └── TimedOut                connecting or reading took longer than `timeout`
├── UnexpectedAnswer            something answered, but not as the service's contract says: a proxy's page, a redirect
└── ProblemError                the service gave no result and said why, in a problem document (RFC 9457)
    ├── BadRequestError         the request as such: its method, size, media type or JSON text
    │   ├── NotWholeError       less or more of the body came than was announced
    │   ├── TooLargeError       the body, its rows, the answer or the time for them exceed a limit: send parts
    │   └── TooSlowError        the request did not arrive in time
    ├── NotFoundError           no such standard, size or class; `nearest` holds the closest that exist
    ├── InvalidRequestError     readable, but something has to be mended; `errors` points at it
    │   ├── DesignationError    a designation that cannot be understood or lacks a part
    │   ├── MemberError         a member that is missing, unknown, of the wrong type or out of range
    │   ├── UnitError           a unit that is not known or does not fit
    │   ├── ReadingsError       readings that cannot be judged together
    │   └── StationError        nothing remains, or a recipe, gauge or state does not fit
    ├── NotStandardisedError    the standard gives no value for this combination
    ├── NotCoveredError         standardised, but the service holds no value for it
    ├── RateLimitedError        too many requests; the retries have been used up
    └── ServiceError            a fault of the service, or of what stands before it
"""

from __future__ import annotations

from dataclasses import dataclass


class Error(Exception):
    """Root of everything that the SDK raises for a call that gave no result."""


class TransportError(Error):
    """No answer came."""


class ConnectionFailed(TransportError):
    """The service could not be reached, or the connection broke."""


class TimedOut(TransportError):
    """Connecting or reading took longer than the time-out."""


class UnexpectedAnswer(Error):
    """The answer is not what the contract says; mostly a wrong `base_url` or a proxy."""


@dataclass(frozen=True, slots=True)
class Pointer:
    """One entry of `errors`: where in the request (RFC 6901), which code, and what would be right.

    Of a designation, `position` is the index of the character where reading stopped, or of the part that was refused,
    and `expected` what would be right there.
    """

    pointer: str
    code: str
    detail: str
    position: int | None = None
    expected: tuple[str, ...] = ()


class ProblemError(Error):
    """The service's problem document."""

    def __init__(
        self,
        status: int,
        code: str,
        type: str = "",
        title: str = "",
        detail: str = "",
        errors: tuple[Pointer, ...] = (),
        nearest: tuple[str, ...] = (),
        request_id: str | None = None,
    ) -> None:
        # All of them are `args`, so that the error survives pickling between processes.
        super().__init__(status, code, type, title, detail, errors, nearest, request_id)
        self.status = status
        self.code = code
        self.type = type
        self.title = title
        self.detail = detail
        self.errors = errors
        self.nearest = nearest
        self.request_id = request_id

    def __str__(self) -> str:
        """Return a sentence for the person who can mend it."""
        said = self.detail or self.title or f"status {self.status}"
        return f"{said} (nearest: {', '.join(self.nearest)})" if self.nearest and "nearest:" not in said else said


class BadRequestError(ProblemError):
    """The request as such cannot be read."""


class NotWholeError(BadRequestError):
    """Less or more of the body came than was announced."""


class TooLargeError(BadRequestError):
    """The body, its rows, the answer or the time that they take exceed a limit of the service; send parts."""


class TooSlowError(BadRequestError):
    """The request did not arrive in the time that the service waits for it."""


class NotFoundError(ProblemError):
    """No such standard, size, class or resource."""


class InvalidRequestError(ProblemError):
    """Readable, but something has to be mended."""


class DesignationError(InvalidRequestError):
    """A designation that cannot be understood or lacks a part."""


class MemberError(InvalidRequestError):
    """A member that is missing, unknown, of the wrong type or out of range."""


class UnitError(InvalidRequestError):
    """A unit that is not known or does not fit."""


class ReadingsError(InvalidRequestError):
    """Readings that cannot be judged together."""


class StationError(InvalidRequestError):
    """A station gets no figure: nothing remains of its limits, or its recipe, gauge or state does not fit."""


class NotStandardisedError(ProblemError):
    """The standard gives no value for this combination."""


class NotCoveredError(ProblemError):
    """The service holds no value that it may publish."""


class RateLimitedError(ProblemError):
    """Too many requests."""


class ServiceError(ProblemError):
    """A fault of the service, or of what stands before it."""


#: Every `code` of the service; a structure test compares the list with the service's own.
CLASS_OF_CODE: dict[str, type[ProblemError]] = {
    "bad_request": BadRequestError,
    "body_not_whole": NotWholeError,
    "not_json": BadRequestError,
    "method_not_allowed": BadRequestError,
    "not_acceptable": BadRequestError,
    "request_timeout": TooSlowError,
    "content_too_large": TooLargeError,
    "inflates_too_much": TooLargeError,
    "too_many_rows": TooLargeError,
    "answer_too_large": TooLargeError,
    "takes_too_long": TooLargeError,
    "uri_too_long": BadRequestError,
    "unsupported_media_type": BadRequestError,
    "not_found": NotFoundError,
    "unknown_name": NotFoundError,
    "unknown_size": NotFoundError,
    "unknown_gauge": NotFoundError,
    "unknown_standard": NotFoundError,
    "former_standard": NotFoundError,
    "unknown_property_class": NotFoundError,
    "unknown_tolerance_class": NotFoundError,
    "unknown_coating": NotFoundError,
    "not_understood": DesignationError,
    "too_long": DesignationError,
    "length_missing": DesignationError,
    "no_length": DesignationError,
    "class_missing": DesignationError,
    "missing_member": MemberError,
    "unknown_member": MemberError,
    "wrong_type": MemberError,
    "repeated_member": MemberError,
    "out_of_range": MemberError,
    "contradiction": MemberError,
    "bad_cursor": MemberError,
    "no_known_column": MemberError,
    "unknown_title": MemberError,
    "invalid": MemberError,
    "unknown_unit": UnitError,
    "unit_does_not_fit": UnitError,
    "unknown_characteristic": ReadingsError,
    "unequal_columns": ReadingsError,
    "uncertainty_missing": ReadingsError,
    "no_readings": ReadingsError,
    "nothing_remains": StationError,
    "recipe_not_allowed": StationError,
    "plant_figures_missing": StationError,
    "resolution_too_coarse": StationError,
    "two_limits_needed": StationError,
    "state_not_of_this_station": StationError,
    "not_standardised": NotStandardisedError,
    "not_covered": NotCoveredError,
    "internal_error": ServiceError,
    "no_temporary_space": ServiceError,
    "not_ready": ServiceError,
}
#: For codes of a newer service, and for answers of a proxy that carry none.
_CLASS_OF_STATUS: dict[int, type[ProblemError]] = {
    400: BadRequestError,
    404: NotFoundError,
    422: InvalidRequestError,
    429: RateLimitedError,
}


def class_of(code: str, status: int) -> type[ProblemError]:
    """Return the class for a code; one that this version does not know falls back on its status."""
    by_status = ServiceError if status >= 500 else _CLASS_OF_STATUS.get(status, ProblemError)
    return CLASS_OF_CODE.get(code, by_status)
