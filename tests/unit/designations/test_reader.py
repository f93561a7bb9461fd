"""What was expected is said in words: no name of the grammar reaches a client."""

from boltwright_server.designations import reader


def test_every_terminal_of_the_grammar_has_words() -> None:
    names = {terminal.name for terminal in reader._parser().terminals if not terminal.name.startswith("__IGNORE")}
    assert names - set(reader._MEANING) == set()
