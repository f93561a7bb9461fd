"""What words say of the kind of product, and which of two words counts."""

from __future__ import annotations

from ..lexicon import Term, implied

_FEATURES = ("kind", "drive", "form", "variant", "thread_form", "series", "other", "hand")
#: Features of words that are told here.
TOLD = (*_FEATURES, "concept")
#: What a more special word replaces: `HEX SOCKET`, `SOCKET CAP BUTTON HEAD`, `RONDELLE PLATE LARGE`.
_WEAK_DRIVES, _WEAK_FORMS = ("hexagon",), ("cap", "flat", "plain")
#: `HEAVY HEX JAM NUT` is a form of its own.
_HEAVY_JAM = {"heavy", "thin"}


def tell(features: dict[str, str], by_concept: dict[str, str], term: Term) -> None:
    """Note what a word says, beside what others said: outright, or by a word for a whole concept."""
    if term.feature in ("kind", "concept") and not _first_kind(features, by_concept, term):
        return
    if term.feature != "concept":
        _feature(features, term)
        return
    for name, meant in implied(term.value).items():
        by_concept.setdefault(name, meant)


def _first_kind(features: dict[str, str], by_concept: dict[str, str], term: Term) -> bool:
    """Say whether a kind agrees with the one that was named first; a set of a bolt and a nut is two parts."""
    kind = term.value if term.feature == "kind" else implied(term.value)["kind"]
    first = features.get("kind") or by_concept.get("kind") or kind
    if first != kind and "purpose" not in features:
        features.setdefault("also", kind)
    return first == kind


def _feature(said: dict[str, str], term: Term) -> None:
    """The first word counts, a more special one replaces it."""
    feature, value = term.feature, term.value
    weak = said.get(feature) in (_WEAK_FORMS if feature == "form" else _WEAK_DRIVES)
    if feature not in said or weak:
        said[feature] = value
    elif {said[feature], value} == _HEAVY_JAM:
        said[feature] = "heavy_thin"
    if feature == "kind" and value == "bolt":
        said.setdefault("noun", "screw" if term.words[0].startswith("SCR") else "bolt")
