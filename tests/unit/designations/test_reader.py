"""What was expected is said in words: no name of the grammar reaches a client."""

import pytest

from boltwright_server.designations import reader


@pytest.mark.parametrize("start", ["thread", "product", "coating"])
def test_every_terminal_of_the_grammar_has_words(start: str) -> None:
    names = {terminal.name for terminal in reader._parser(start).terminals if not terminal.name.startswith("__IGNORE")}
    assert names - set(reader._MEANING) == set()
