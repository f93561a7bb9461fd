"""The grammar's tables, worked out ahead: `python -m boltwright_server.designations.grammar` writes them anew.

Building an LALR parser from `designation.lark` takes some eight times as long as reading its tables. The tables know
nothing of the standards held: the pattern of their names is put in when they are read, so that a new standard needs no
new tables. Tables of another grammar or another version of the library are not used: the grammar is built instead.
"""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path
from typing import Any

import lark
import msgspec
from lark import Lark
from lark.grammar import Rule
from lark.lexer import PatternRE, TerminalDef

GRAMMAR = Path(__file__).with_name("designation.lark")
TABLES = Path(__file__).with_name("designation.tables")
STARTS = ("thread", "product", "coating")
#: The terminal whose pattern depends on the standards held; its priority keeps it before all others.
_NAMES = "KNOWN_STANDARD"
_WIDEST = 2**31


def parser(names: str) -> Lark:
    """Return the parser of designations; `names` is a pattern of the product standards held."""
    known = msgspec.msgpack.decode(TABLES.read_bytes()) if TABLES.exists() else {}
    if known.get("made_from") != _made_from():
        return _built(names)
    tables = known["tables"]
    found: Lark = Lark._load_from_dict(tables["data"], tables["memo"])  # type: ignore[no-untyped-call]
    for terminal in found.terminals:
        if terminal.name == _NAMES:
            terminal.pattern = PatternRE(names, ("i",))
    return found


def _built(names: str) -> Lark:
    return Lark(
        f"{GRAMMAR.read_text(encoding='utf-8')}\n{_NAMES}.2: /{names}/i\n",
        start=list(STARTS),
        parser="lalr",
        lexer="contextual",
        maybe_placeholders=True,
    )


def _made_from() -> str:
    return f"{sha256(GRAMMAR.read_bytes()).hexdigest()} lark {lark.__version__}"


def tables() -> bytes:
    """Return the file of the tables."""
    data, memo = _built("ISO 0").memo_serialize([TerminalDef, Rule])
    return msgspec.msgpack.encode({"made_from": _made_from(), "tables": _bounded({"data": data, "memo": memo})})


def _bounded(node: Any) -> Any:
    """The library writes widths without bound as numbers that no format holds; they only order terminals."""
    if isinstance(node, dict):
        return {name: _bounded(one) for name, one in node.items()}
    if isinstance(node, (list, tuple)):
        return [_bounded(one) for one in node]
    return min(node, _WIDEST) if isinstance(node, int) and not isinstance(node, bool) else node


if __name__ == "__main__":
    TABLES.write_bytes(tables())
