"""The list of bases at the end of a document: each source once, numbered, with the places that rest on it."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from ..quantities import STATED, Basis
from .figures import written

#: What the word `checked` of a basis means to a reader.
CHECKED_SENTENCES = {
    "original": "read in the standard itself",
    "two reproductions": "checked against two reproductions of the standard",
    "one reproduction and formula": "checked against one reproduction and by formula",
    "formula": "checked by formula",
    "one reproduction": "checked against one reproduction of the standard",
    "memory": "from memory: not seen in print",
    "conflict": "conflict: sources disagree",
    STATED: "stated by the purchaser: not checked here",
}
METHOD_SENTENCES = {
    "tabulated": "tabulated",
    "computed": "computed",
    "common practice": "common practice of the trade",
}
#: Said beside every figure that rests on it.
_WARNINGS = {"memory": "from memory", "conflict": "conflict"}


@dataclass(frozen=True, slots=True)
class Source:
    """One basis and its number in the list."""

    number: int
    basis: Basis

    @property
    def anchor(self) -> str:
        """The fragment that a figure leads to."""
        return f"basis-{self.number}"

    @property
    def warning(self) -> str:
        """What is said beside the figure, or nothing."""
        return _WARNINGS.get(self.basis.checked, "")

    @property
    def cited(self) -> str:
        """Standard and edition, as the trade cites them."""
        return self.basis.cited

    @property
    def method(self) -> str:
        """How the figure was found, in words."""
        return METHOD_SENTENCES[self.basis.method]

    @property
    def checked(self) -> str:
        """How the figure was checked, in words."""
        return CHECKED_SENTENCES[self.basis.checked]


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as it is written, with its source. An open side has no text."""

    text: str
    source: Source

    @classmethod
    def of(cls, value: Decimal | None, source: Source) -> Figure:
        """Return the figure of a limit."""
        return cls("" if value is None else written(value), source)


@dataclass(slots=True)
class Bases:
    """Numbers the bases in the order in which a document first rests on them."""

    _sources: dict[Basis, Source] = field(default_factory=dict)
    _places: dict[int, dict[str, str]] = field(default_factory=dict)

    def source(self, basis: Basis, place: str, name: str) -> Source:
        """Return the source of a figure that stands at the fragment `place` and is called `name`."""
        found = self._sources.setdefault(basis, Source(len(self._sources) + 1, basis))
        self._places.setdefault(found.number, {})[place] = name
        return found

    def entries(self) -> list[tuple[Source, list[tuple[str, str]]]]:
        """Return each source with the (fragment, name) of the places that rest on it."""
        return [(source, list(self._places[source.number].items())) for source in self._sources.values()]
