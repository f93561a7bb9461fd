"""Released tables do not change silently: a verdict must replay years later with the same figures.

`python tests/structure/pin_tables.py` writes the hashes anew. Run it for a new folder, or, before a release, for a
correction; after a release a corrected edition is a folder of its own and the old one stays as it is.
"""

import pytest
from pin_tables import PINS, hashes, pinned

from boltwright_server.standards import REGISTRY

HOW = "if that is meant, run `python tests/structure/pin_tables.py` and say in the commit which limits move"


@pytest.mark.parametrize("folder", REGISTRY)
def test_a_table_is_as_it_was_pinned(folder: str) -> None:
    assert folder in pinned(), f"{folder} has no line in {PINS.name}; {HOW}"
    assert hashes()[folder] == pinned()[folder], f"{folder} has changed; {HOW}"


def test_no_pinned_folder_is_gone() -> None:
    assert set(pinned()) - set(REGISTRY) == set(), f"a pinned folder is no longer served; {HOW}"
