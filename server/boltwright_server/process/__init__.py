"""The running process: capability and control charts. Set-points of the stations belong here too."""

from .capability import Capability, Index, capability

__all__ = ["Capability", "Index", "capability"]
