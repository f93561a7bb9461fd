"""Every example in README.md and docs/ is run: what a reader copies answers as the page says.

`python tests/docs/refresh_examples.py` writes the answers of today into the pages.
"""

from __future__ import annotations

import pytest
from documentation.application import ask
from documentation.examples import Example, examples, pages
from documentation.pictures import Picture, pictures

EXAMPLES = [example for page in pages() for example in examples(page)]
PICTURES = [picture for page in pages() for picture in pictures(page)]


@pytest.mark.parametrize("example", EXAMPLES, ids=[example.place for example in EXAMPLES])
def test_the_answer_is_the_one_shown(example: Example) -> None:
    assert example.mismatch(ask) is None


@pytest.mark.parametrize("picture", PICTURES, ids=[picture.place for picture in PICTURES])
def test_the_picture_is_the_one_shown(picture: Picture) -> None:
    assert picture.file.read_bytes() == picture.drawn(ask)


def test_examples_are_found_at_all() -> None:
    assert len(EXAMPLES) >= 10
    assert len(PICTURES) >= 2
