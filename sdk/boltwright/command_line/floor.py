"""`boltwright floor FILE.toml` serves a station: signed limits in, register image out; works behind an outage."""

from __future__ import annotations

import argparse
import logging
import signal
import sys
from pathlib import Path
from threading import Event
from typing import Any

from ..floor.limits_store import LimitsRefused
from ..floor.service import FILE_REFUSED, Floor, Settings
from ..transport import Connection

_CODES = """Exit code of --once: 0 the limits are in use, 3 the machine waits for the operator, 4 the machine keeps its
old image, 5 no connection, 6 the file was refused, 1 the configuration cannot be used."""


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add the command."""
    parser = commands.add_parser("floor", epilog=_CODES)
    parser.add_argument(
        "file",
        help="TOML: [limits] directory, station, inbox, keys; [modbus] host, port, base, device_id, or [opcua] url, "
        "namespace, certificate, private_key, server_certificate, security",
    )
    parser.add_argument("--once", action="store_true", help="make one pass")
    parser.set_defaults(run=_floor, url="http://127.0.0.1", json=False)


def _floor(connection: Connection, options: argparse.Namespace) -> tuple[Any, str, int]:
    try:
        floor = Floor(Settings.read(Path(options.file)))
    except (OSError, ValueError, RuntimeError) as error:  # RuntimeError: an extra that is not installed
        print(f"boltwright: {error}", file=sys.stderr)
        return None, "", 1
    except LimitsRefused as error:
        print(f"boltwright: {error}", file=sys.stderr)
        return None, "", FILE_REFUSED
    try:
        if options.once:
            code = floor.once()
            return None, floor.said, code
        return None, "", floor.run(_stop_on_signals())
    except RuntimeError as error:  # the extra of the controller is not installed
        print(f"boltwright: {error}", file=sys.stderr)
        return None, "", 1
    finally:
        floor.close()


def _stop_on_signals() -> Event:
    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(message)s")
    stop = Event()
    for one in (signal.SIGTERM, signal.SIGINT):
        signal.signal(one, lambda *_: stop.set())
    return stop
