"""The page of the lexicon: every word of the trade that descriptions of part masters are read with, by language."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from boltwright_server.part_masters.text.lexicon import UNSAID, Term, all_terms, concepts

LANGUAGES = {"en": "English", "de": "German", "fr": "French", "es": "Spanish", "it": "Italian"}
FEATURES = {
    "kind": "kind of product",
    "drive": "drive",
    "form": "form of head, nut or washer",
    "variant": "point of a set screw, insert of a lock nut",
    "thread_form": "thread to the head, or not",
    "series": "coarse or fine thread",
    "concept": "a whole product in one word",
    "coating": "coating",
    "steel": "steel",
    "grade": "grade by its own name",
    "hand": "left-hand thread",
    "modifier": "what makes it another part than that of the standard",
    "part": "part of a fastener, named before what is said of it",
    "marker": "a class follows",
    "mark": "a number belongs to it",
    "unit": "unit",
    "other": "products of which no standard is held",
    "noise": "words that say nothing of the part",
    "label": "words that a number of something else stands behind: of a supplier, a place, an article",
}
INTRODUCTION = (
    "The words by which `POST /v1/part-masters/validation` reads descriptions: common practice of the trade, no",
    "trade names. They are data, `part_masters/text/lexicon/terms.csv`, in capitals without accents; a term of several",
    "words is found before the words that it is made of. A word that is not here is left over and said to be.",
)


def lexicon_page() -> Iterator[str]:
    """Yield the lines of the page."""
    yield "# Lexicon of part masters"
    yield ""
    yield from INTRODUCTION
    for language, title in LANGUAGES.items():
        yield from ("", f"## {title}", "", "| means | value | words |", "| --- | --- | --- |")
        yield from _rows([term for term in all_terms() if term.language == language])
    yield from ("", "## What the words together may mean", "")
    yield "`part_masters/text/lexicon/concepts.csv`: where several standards are left, the property class decides"
    yield "between those that list it; where it does not, the row comes back with all of them as alternatives."
    yield ""
    yield "| product | kind | drive | form | variant | thread | series | system | standards |"
    yield "| --- | --- | --- | --- | --- | --- | --- | --- | --- |"
    for one in concepts():
        said = (one.kind, one.drive, one.form, one.variant, one.thread_form, one.series, one.system)
        cells = ["" if word == UNSAID else word for word in said]
        yield f"| {one.concept.replace('_', ' ')} | {' | '.join(cells)} | {', '.join(one.products)} |"


def _rows(terms: list[Term]) -> Iterator[str]:
    order = list(FEATURES)
    terms = sorted(terms, key=lambda term: (order.index(term.feature), term.value))
    for (feature, value), several in groupby(terms, key=lambda term: (term.feature, term.value)):
        words = ", ".join(" ".join(term.words) for term in several)
        yield f"| {FEATURES[feature]} | {value.replace('_', ' ')} | {words} |"
