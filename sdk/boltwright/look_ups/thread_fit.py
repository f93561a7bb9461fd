"""GET /v1/thread-fit: least and greatest clearance of a bolt and a nut thread."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..decoding import Result
from ..transport import Connection
from ..values import Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadFit(Result):
    """How two threads go together.

    `clearances` by diameter, negative for interference: pitch_diameter (flanks), major_diameter (crest of the bolt),
    minor_diameter (root of the bolt); None where the standard sets no limit. `overlap` of the flanks is on the radius.
    """

    designation: str
    system: str
    external: str
    internal: str
    unit: str
    clearances: Mapping[str, Bounds]
    overlap: Bounds
    overlap_ratio: Bounds
    engagement: Mapping[str, Bounds] = field(default_factory=dict)
    notices: tuple[str, ...] = ()


def thread_fit(connection: Connection, external: str, internal: str, *, unit: str | None = None) -> ThreadFit:
    """Return the fit of a bolt thread such as M10-6g and a nut thread such as M10-6H.

    Args:
        external, internal: threads of one diameter and pitch, each with its class.
        unit: shows lengths in this unit (um, in).

    Raises:
        MemberError: threads that cannot be mated, or never may be. Others: see `boltwright.errors`.
    """
    return connection.get(ThreadFit, "/v1/thread-fit", external=external, internal=internal, unit=unit)
