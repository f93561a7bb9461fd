"""A text that is read stretch by stretch says what it says when it is scanned from end to end."""

from random import Random

import pytest

from boltwright_server.part_masters.lexicon import all_terms
from boltwright_server.part_masters.scanned import Scanned, accounted
from boltwright_server.part_masters.scanning import scan
from boltwright_server.part_masters.scanning.stretches import scan_pieces
from boltwright_server.part_masters.tokens import Atom, atoms, pieces

from .test_any_text import awkward_texts

#: Where words look at each other, or two say the same: sizes, standards, classes, quantities, strange words.
FIGURES = """
M10 M 10 X 60 X60 X1.25 M10X60 M10-1.25 M10-8 10X60 1/2-13 1/2-13X2 #10-32 UNC-2A 2 1/2 8.8 10.9 A2 70 A2-70 200 HV
200HV LONG L=60 PAS 1.5 100 PCS BOX OF DE ISO 4014 ISO4014 DIN EN BS NF E JIS B 1180 GR 5 CL 10 SAE J429 ASTM A563 DH
A449 A FOO SERRATED A2J FLZN 480H ZN 6 KANT PANS :2011 MM IN " = & # KG STYLE H SW 17 FOR 45 SPECIAL
"""


def at_once(found: list[Atom]) -> Scanned:
    scanned = scan(found)
    scanned.reading.used, scanned.reading.left_over = accounted(found, scanned.left)
    return scanned


def what_is_said(scanned: Scanned) -> dict[str, object]:
    features = list(scanned.reading.features.items())
    return {"features": features, **{slot: getattr(scanned, slot) for slot in Scanned.__slots__}}


def test_any_order_of_words_is_read_alike() -> None:
    chance, texts, terms = Random(6), awkward_texts(), [" ".join(term.words) for term in all_terms()]
    by_stretches = 0
    for _ in range(8000):
        words = [chance.choice(chance.choice((terms, FIGURES.split(), chance.choice(texts).split()))) for _ in range(5)]
        found = pieces(chance.choice((" ", " ", " ", "-", ", ", "")).join(words))
        scanned = scan_pieces(found)
        if scanned is not None:
            by_stretches += 1
            whole = at_once([atom for piece in found for atom in atoms(piece)])
            assert what_is_said(scanned) == what_is_said(whole), found
    assert by_stretches > 2000


@pytest.mark.parametrize(
    "text",
    [
        "SPACER FOR M10 BOLT ISO 4014",
        "M10 X-60 HEX BOLT",
        "M10 X60 BOLT M12",
        'M10X60" "BOLT"',
        "HEX NUT M10 PAS 1.5 X60",
    ],
)
def test_what_is_seen_from_afar_is_seen(text: str) -> None:
    found = pieces(text)
    scanned = scan_pieces(found)
    expected = what_is_said(at_once([atom for piece in found for atom in atoms(piece)]))
    assert scanned is None or what_is_said(scanned) == expected


def test_descriptions_are_seldom_scanned_from_end_to_end() -> None:
    texts = awkward_texts()
    at_end = [text for text in texts if scan_pieces(pieces(text)) is None]
    assert len(at_end) < len(texts) / 4, at_end
