"""The page of the lexicon holds every word: a new feature of words has a line of its own in the generator."""

import sys

import pytest
from tree import ROOT

from boltwright_server.part_masters.text.lexicon import all_terms


def test_every_term_stands_on_the_page(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(ROOT / "docs")
    monkeypatch.delitem(sys.modules, "generate_lexicon", raising=False)
    import generate_lexicon

    page = "\n".join(generate_lexicon.lexicon_page())
    assert {one.feature for one in all_terms()} <= set(generate_lexicon.FEATURES)
    assert {one.language for one in all_terms()} <= set(generate_lexicon.LANGUAGES)
    assert all(" ".join(one.words) in page for one in all_terms())
