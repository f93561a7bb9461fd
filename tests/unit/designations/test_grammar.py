"""The tables worked out ahead are those of the grammar, and read as a parser does that is built from it."""

import msgspec
import pytest
from designation_texts import coatings, product_designations, texts, threads
from lark import Lark, Tree, UnexpectedInput

from boltwright_server.designations import grammar, reader

HINT = "run `python -m boltwright_server.designations.grammar`"


def test_the_tables_are_those_of_the_grammar() -> None:
    held = msgspec.msgpack.decode(grammar.TABLES.read_bytes())
    assert held["made_from"] == grammar._made_from(), HINT


@pytest.mark.parametrize("start", grammar.STARTS)
def test_tables_and_grammar_read_alike(start: str) -> None:
    names = f"(?:{reader.known_standards()})"
    ahead, built = grammar.parser(names), grammar._built(names)
    for text in (*threads()[::20], *product_designations()[::50], *coatings(), *texts(seed=1, count=500)):
        assert read(ahead, text, start) == read(built, text, start), text


def read(parser: Lark, text: str, start: str) -> Tree | tuple:
    """Return the tree, or where reading stopped and what was expected there."""
    try:
        return parser.parse(text, start=start)
    except UnexpectedInput as error:
        return error.pos_in_stream, set(getattr(error, "expected", ()) or getattr(error, "allowed", ()) or ())
