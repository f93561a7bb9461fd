"""The command `boltwright`: limits, fits, coatings, gauges, strengths, nuts, a specification, a verdict on readings.

Exit code: 0 done, or the lot is accepted, or the gauge is fit, or no part master is wrong; 1 the lot is rejected, or
the gauge is unfit, or a part master has an error; 2 the lot is incomplete, or a part master has a warning; 3 no answer,
and one sentence on the error output says why. BOLTWRIGHT_URL names the service, BOLTWRIGHT_API_KEY the key.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import NoReturn

from ..errors import Error
from ..version import __version__

FAILED = 3
#: Each command, the module that it is in, and what it does. Of the modules only that of the command is imported.
_COMMANDS = {
    "limits": ("look_ups", "limits of size of a thread, as M10-6g"),
    "gauges": ("look_ups", "gauges of a thread, as M10-6H"),
    "specification": ("look_ups", "everything required of a product"),
    "fit": ("threads", "clearances of a bolt and a nut thread, as M10-6g M10-6H"),
    "coating": ("threads", "room for a coating, gauges and pairs"),
    "gauge": ("gauge", "the condition of a measured gauge"),
    "strength": ("strength", "properties, loads and tests of a class or grade"),
    "nuts": ("strength", "which nuts hold a bolt"),
    "equivalents": ("substitutes", "nearest products of the same function"),
    "judge": ("judge", "the verdict on a file of readings"),
    "capability": ("process", "Cp, Cpk, Pp, Ppk of a column"),
    "chart": ("process", "control chart of a column"),
    "validate": ("validate", "a catalogue of part masters, checked row by row"),
    "impact": ("impact", "what a change does to a catalogue of part masters"),
    "release": ("release", "sign the limits of a station"),
    "release-key": ("release", "make a key that releases limits"),
    "floor": ("floor", "keep a controller on signed limits"),
}
_DEFAULT_URL = "http://127.0.0.1:8765"


class _Parser(argparse.ArgumentParser):
    """A misspelt command is exit code 3 too: 2 means an incomplete lot."""

    def error(self, message: str) -> NoReturn:
        self.exit(FAILED, f"boltwright: {message}; see {self.prog} --help\n")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit code."""
    given = sys.argv[1:] if arguments is None else list(arguments)
    options = _parser(given[0] if given else "").parse_args(given)
    # A request for help ends before, and waits for no connection.
    from ..transport import Connection

    try:
        with Connection(options.url, os.environ.get("BOLTWRIGHT_API_KEY")) as connection:
            result, text, code = options.run(connection, options)
        told = result.body.decode() if options.json else text
        if told:
            print(told, flush=True)
    except BrokenPipeError:  # the reader, such as head, has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAILED
    except OSError as error:
        return _failed(f"{error.filename}: {error.strerror}" if error.filename else str(error))
    except (Error, ValueError) as error:
        return _failed(str(error))
    except KeyboardInterrupt:
        return FAILED
    return int(code)


def _failed(sentence: str) -> int:
    print(f"boltwright: {sentence}", file=sys.stderr)
    return FAILED


def _parser(chosen: str) -> argparse.ArgumentParser:
    shared = argparse.ArgumentParser(add_help=False)
    url = os.environ.get("BOLTWRIGHT_URL") or _DEFAULT_URL
    shared.add_argument("--url", default=url, help="the service (default: BOLTWRIGHT_URL, else %(default)s)")
    shared.add_argument("--json", action="store_true", help="print the service's answer as it came, in JSON")
    parser = _Parser(
        prog="boltwright",
        description="Limits of threaded fasteners, and the verdict on a file of readings.",
        epilog="The figures support, and do not replace, the current edition of the standard, the purchase order, "
        "local codes and the judgement of a qualified person.",
    )
    parser.add_argument("--version", action="version", version=f"boltwright {__version__}")
    commands = parser.add_subparsers(required=True, metavar="command")
    if chosen in _COMMANDS:
        import_module(f".{_COMMANDS[chosen][0]}", __name__).add_to(commands, shared)
    for name, (_, help) in _COMMANDS.items():
        if name not in commands.choices:
            commands.add_parser(name, help=help)
    return parser
