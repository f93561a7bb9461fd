"""A product of a standard, one of its sizes, and the answer of every product family."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from decimal import Decimal
from functools import cached_property
from typing import Any

from ..quantities import Bounds, Contradiction, NotUnderstood, UnknownName, near_names
from ..standards import BadFacts, Row, Standard, Table, current
from ..threads import Member, MetricSize, ThreadSize, UnifiedSize, find_size
from .family import FAMILIES, Family

#: The length class of a product whose standard, or order, leaves the length open.
AS_ORDERED = "as ordered"


@dataclass(frozen=True, slots=True)
class Options:
    """What a `[[product]]` entry of a `standard.toml` may say beyond its family; each is a fact of the standard.

    name: the words that tell one product of a standard from another (`hex cap screw`).
    table, classes: files of the sizes and of the property classes, where they are not the usual ones.
    grade: product grade, where neither size nor table decides it.
    style: style of a nut in ISO 898-2: 0 thin, 1 regular, 2 high.
    form: form of a nut in inch standards: hex, heavy_hex, hex_jam, heavy_hex_jam.
    length_class: tolerance class of the length, where it is not that of the product grade; `as ordered` for none.
    length_form: form of the end, pointed or not_pointed, in an inch table of length tolerances.
    thread_class: tolerance class of the thread, where it is not that of the product grade.
    short: `thread_to_head` where a screw too short for a plain shank is threaded to the head.
    short_partner: the standard to order instead of a bolt too short for a plain shank.
    head: shape of the head, where it is not that of the family. end: form of the thread end, ISO 4753.
    loadability: `reduced` where head or shank carry less than the thread; `structural` for structural bolting.
    forms: letters of the forms that a washer is designated by with its hole, `A 10.5`.
    mark: what stands beside the class on the part, `HV`. loads: file of the loads that the product standard prints.
    transition: pitches of the transition between thread and shank, where they are not those of ISO 888.
    sizes: `some` where the standard has more sizes than were seen.
    strength: why the loads of its classes are not those of the usual standard; the strength is then as agreed.
    not_covered: sentences on requirements of the standard that its folder does not hold.
    """

    name: str = ""
    table: str = ""
    classes: str = "property_classes.csv"
    grade: str = ""
    style: int | None = None
    form: str = ""
    length_class: str = ""
    length_form: str = ""
    thread_class: str = ""
    short: str = ""
    short_partner: str = ""
    head: str = ""
    end: str = "CH"
    loadability: str = ""
    forms: str = ""
    mark: str = ""
    loads: str = ""
    transition: int = 0
    sizes: str = ""
    strength: str = ""
    not_covered: tuple[str, ...] = ()

    @classmethod
    def of(cls, entry: Mapping[str, Any], where: str) -> Options:
        """Check an entry as it stands in the file.

        Raises:
            BadFacts: a member that is not known or not of its kind.
        """
        known = [field.name for field in fields(cls)]
        for member, value in entry.items():
            if member not in known:
                raise BadFacts(f"{where}: unknown member {member!r}; known: {', '.join(known)}")
            kind = {"style": int, "transition": int, "not_covered": list}.get(member, str)
            if not isinstance(value, kind) or isinstance(value, bool):
                raise BadFacts(f"{where}: {member!r} is not a {kind.__name__}")
        return cls(**{**entry, "not_covered": tuple(map(str, entry.get("not_covered", ())))})


@dataclass(frozen=True, eq=False)
class Product:
    """One product of a standard in one edition."""

    standard: Standard
    options: Options = Options()

    @cached_property
    def id(self) -> str:
        """How a designation starts: number of the standard, and the name where the standard has several products."""
        return f"{self.standard.id} {self.options.name}".strip()

    @property
    def named(self) -> str:
        """The standard as the trade cites it, and the name where it has several products."""
        return f"{self.standard.cited} {self.options.name}".strip()

    @property
    def cited(self) -> str:
        """How its canonical designation starts: the edition is named where it is not the current one."""
        if current(self.standard.id) is self.standard:
            return self.id
        return f"{self.id}:{self.standard.edition}"

    @property
    def title(self) -> str:
        """The title of its standard, with the name of the product where the standard has several."""
        return f"{self.standard.title}: {self.options.name}" if self.options.name else self.standard.title

    @cached_property
    def family(self) -> Family:
        """The family of its standard."""
        return FAMILIES[self.standard.family]

    @property
    def member(self) -> Member | None:
        """The thread that it carries; a washer carries none."""
        return self.family.member

    @property
    def head(self) -> str:
        """Shape of the head, or of the body where there is no head."""
        return self.options.head or self.family.head

    @cached_property
    def table(self) -> Table:
        """The table of sizes: the one that is named, or the first of the folder."""
        return self.standard.tables[self.options.table or next(iter(self.standard.tables))]

    @property
    def classes(self) -> Table | None:
        """The table of the property classes that the standard lists."""
        return self.standard.tables.get(self.options.classes)

    @cached_property
    def fully_threaded(self) -> bool:
        """A bolt with a plain shank has a shank diameter in its table, a screw threaded to the head has none."""
        return self.member == "external" and not self.body_symbols

    @cached_property
    def body_symbols(self) -> tuple[str, ...]:
        """The symbols in the table that are the diameter of the plain shank: ds, E or D."""
        ids = self.family.dimension_ids()
        columns = {name.partition("_")[0] for name in self.table.columns}
        return tuple(name for name, id in ids.items() if id == "body_diameter" and name in columns)

    @property
    def has_length(self) -> bool:
        """Nuts and washers have no length."""
        return self.family.has_length

    @property
    def has_grade(self) -> bool:
        """Whether a product grade of ISO 4759-1 holds: not in inch standards, nor where the length is as ordered."""
        return not self.family.inch and self.options.length_class != AS_ORDERED

    @property
    def names_thread(self) -> bool:
        """A washer is designated by a nominal size, `10`, not by a thread."""
        return self.member is not None

    def size_name(self, size: ThreadSize) -> str:
        """Return the size as the designation of this product writes it: M10x1.25, 1/2-13, and 10 for a washer."""
        if isinstance(size, UnifiedSize):
            return size.short
        return size.designation if self.names_thread else str(size.d)

    def row(self, size: ThreadSize) -> Row:
        """Return the row of a size.

        Raises:
            UnknownName: the standard does not list it; carries the nearest that it lists.
            Contradiction: a size of another thread system.
        """
        key = self.size_key(size)
        row = self.table.find(key)
        if row is None:
            raise UnknownName(
                self.lists_no(key),
                member="size",
                code="unknown_size",
                nearest=_nearest_sizes(key, self.size_keys()),
            )
        return row

    def size_key(self, size: ThreadSize) -> str:
        """Return the key of a size in the table of sizes.

        Raises:
            Contradiction: a size of another thread system.
        """
        if isinstance(size, UnifiedSize) != self.family.inch:
            wanted = "inch threads, as 1/2-13" if self.family.inch else "metric threads, as M10"
            raise Contradiction(f"{self.id} has {wanted}; {size.designation} is {size.system}", member="size")
        if isinstance(size, UnifiedSize):
            return size.name
        return size.designation if self.names_thread else f"M{size.d}"

    def lists_no(self, key: str) -> str:
        """Say that a size is not listed, or not held where not every size of the standard was seen."""
        if self.options.sizes == "some":
            keys = self.size_keys()
            return f"no {key} of {self.standard.cited} is held: the sizes that were seen are {keys[0]} to {keys[-1]}"
        return f"{self.named} lists no {key}"

    def size_keys(self) -> list[str]:
        """Return the sizes that the standard lists, in its order."""
        return [str(name) for name in self.table.column_values("thread")]

    def class_row(self, property_class: str | None) -> Row | None:
        """Return the row of a property class, or None where the standard does not list it."""
        if self.classes is None or property_class is None:
            return None
        return self.classes.find(property_class)

    def hardness_class(self, written: str) -> str:
        """Return the hardness class that a text names, as `200 HV` or `45H`.

        Raises:
            UnknownName: the standard lists no such class; carries those that it lists.
        """
        listed = [] if self.classes is None else [str(name) for name in self.classes.column_values("property_class")]
        key = written.upper().replace(" ", "")
        found = next((name for name in listed if name.upper().replace(" ", "") == key), None)
        if found is None:
            raise UnknownName(
                f"{self.standard.cited} lists no hardness class {written!r}; it lists {', '.join(listed)}",
                member="property_class",
                code="unknown_property_class",
                nearest=listed[:4],
            )
        return found

    def strength_class(self, property_class: str) -> str:
        """Return the class whose loads hold: a head or shank that carries less has a leading zero, 08.8.

        ISO 898-1:2013, clause 5; for structural bolting Table 3 and the footnotes of Tables 4 and 5.
        """
        if self.options.loadability == "structural" and property_class in ("8.8", "10.9"):
            return f"{property_class}S"
        if self.options.loadability == "reduced" and not property_class.startswith("0"):
            return f"0{property_class}"
        return property_class

    @property
    def own_strength(self) -> bool:
        """Whether its classes are not those of ISO 898, ISO 3506 or of the inch standards."""
        return bool(self.options.strength or self.options.loads)

    def nut_style(self, property_class: str | None) -> int | None:
        """Return the style of ISO 898-2 whose hardness and proof load hold for a nut of this class, None for no nut."""
        row = self.class_row(property_class)
        if row is not None and "style" in row.cells:
            return int(row.word("style"))
        return self.options.style

    def checked_length(self, length: Decimal | None) -> Decimal | None:
        """Return a nominal length in mm that can be one, None for a product that has none.

        Raises:
            NotUnderstood: no length, one that is not above zero, or one for a product that has none.
        """
        if not self.has_length:
            if length is not None:
                raise NotUnderstood(
                    f"{self.id} is a {self.family.item} and has no length", member="length", code="no_length"
                )
            return None
        if length is None:
            example = "1/2-13x2" if self.family.inch else "M10x60"
            raise NotUnderstood(
                f"{self.id} needs a nominal length, as {example}", member="length", code="length_missing"
            )
        if length <= 0:
            unit = self.table.unit
            raise NotUnderstood(f"a length must be above 0 {unit}, not {length}", member="length", code="out_of_range")
        return length


@dataclass(frozen=True, slots=True)
class ProductDimensions:
    """Dimensions of one product in `unit`: mm, or inch for inch products.

    `product_grade` is None where the standard has no grades, `thread_tolerance_class` for a product without thread.
    """

    standard: str
    edition: str
    size: str
    length: Decimal | None
    product_grade: str | None
    thread_tolerance_class: str | None
    dimensions: dict[str, Bounds]
    notices: tuple[str, ...]
    fully_threaded: bool = False
    unit: str = "mm"
    #: Nominal mass of 1000 pieces in kg; None where the form is not held.
    mass_per_1000: Bounds | None = None
    #: Shape of the head, and form of the thread end (ISO 4753), as the drawing needs them.
    head: str = ""
    end: str = ""


def _nearest_sizes(key: str, listed: list[str]) -> list[str]:
    """Return the three nearest: metric ones by diameter, then by pitch; inch ones by their text."""
    metric = [name for name in listed if name.startswith("M")]
    if not key.startswith("M") or not metric:
        return list(near_names(key, listed, 3))
    d, pitch = _numbers(key)

    def distance(name: str) -> tuple[Decimal, Decimal]:
        its_d, its_pitch = _numbers(name)
        return abs(its_d - d), abs(its_pitch - pitch)

    return sorted(metric, key=distance)[:3]


def _numbers(name: str) -> tuple[Decimal, Decimal]:
    """Return diameter and pitch of M12x1.5 as written; a coarse pitch counts as 0."""
    d, _, pitch = name.removeprefix("M").partition("x")
    return Decimal(d), Decimal(pitch or 0)


def size_of(name: str) -> MetricSize:
    """Return the thread that a row of a product table names."""
    d, _, pitch = name.removeprefix("M").partition("x")
    return find_size(Decimal(d), Decimal(pitch) if pitch else None)
