"""The floor: decisions, register images, signed limits and controllers, without a service and behind its outage.

`piece_rule`, `piece_request` and `register_image` are the service's own modules, byte for byte.
"""

from .decisions import decide_pieces
from .images import Image, check_image, encode_image
from .limits_store import HeldLimits, LimitsRefused, LimitsStore
from .modbus_writer import ModbusWriter
from .opcua_writer import OpcUaWriter
from .signatures import public_key_id, sign_limits

__all__ = [
    "HeldLimits",
    "Image",
    "LimitsRefused",
    "LimitsStore",
    "ModbusWriter",
    "OpcUaWriter",
    "check_image",
    "decide_pieces",
    "encode_image",
    "public_key_id",
    "sign_limits",
]
