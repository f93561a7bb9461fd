"""Known ways of spoiling a row: for each code of the findings one that must raise it and nothing else.

A fault takes a part and gives back a row, the part that the row now truly asks for (None: nobody can say) and the
codes. `NOT_JUDGED` as designation: the row contradicts itself, and either answer may be defended.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from random import Random

from . import facts, figure_faults, spelling, words
from .parts import HARD, KINDS, THICKNESS, Part, has_room, kind_of
from .spoilt import NOT_JUDGED, Fault, Row, Spoilt, told


def unreadable(part: Part, chance: Random) -> Spoilt | None:
    return Spoilt({"description": chance.choice(words.JUNK)}, {"unreadable"}, "")


def cell_too_long(part: Part, chance: Random) -> Spoilt | None:
    return told(
        part, {"description": "SEE THE LONG TEXT " * 40, "designation": part.canonical} | _coated(part), "cell-too-long"
    )


def _coated(part: Part) -> Row:
    return {"coating": part.coating} if part.coating and not part.designated_coating else {}


def cells_do_not_fit(part: Part, chance: Random) -> Spoilt | None:
    found = told(part, spelling.written(part, chance), "cells-do-not-fit")
    found.extra_cells = ["", "x"][: chance.randint(1, 2)]
    return found


def contradiction(part: Part, chance: Random) -> Spoilt | None:
    if part.inch or kind_of(part) != "bolt" or part.property_class.startswith("A"):
        return None
    row = spelling.described(part, chance)
    longest = Decimal(part.cells.get("l_max", part.length))
    near = facts.lengths(str(Decimal(part.length) + 1), str(min(longest, Decimal(part.length) + 30)))
    if chance.random() < 0.5 and near:
        row["length"] = near[0]
    elif "x" in part.size or part.designated_coating or not 50 <= Decimal(part.length) <= 80:
        return None
    else:
        row["thread"] = "M12" if part.d != 12 else "M10"
    return Spoilt(row, {"attribute-contradicts-description"}, NOT_JUDGED)


def standard_unknown(part: Part, chance: Random) -> Spoilt | None:
    if part.inch or kind_of(part) != "bolt":
        return None
    number = chance.choice(("DIN 7984", "ISO 14579", "BS 3692", "JIS B 1180", "ISO 99999", "DIN 604", "NF E 25-112"))
    row = {"description": f"{spelling.name_of(part, 'en', chance)} {part.size}x{part.length} {part.property_class}"}
    row |= {"standard": number} if chance.random() < 0.5 else {"description": f"{row['description']} {number}"}
    return Spoilt(row, {"standard-unknown"}, "")


#: Former standards by the ISO standard of the same shape: trade knowledge, as old catalogues list them.
FORMER = {
    "ISO 4014": "DIN 931",
    "ISO 4017": "DIN 933",
    "ISO 8765": "DIN 960",
    "ISO 8676": "DIN 961",
    "ISO 4762": "DIN 912",
    "ISO 10642": "DIN 7991",
    "ISO 4032": "DIN 934",
    "ISO 8673": "DIN 934",
    "ISO 4035": "DIN 439",
    "ISO 4026": "DIN 913",
    "ISO 4027": "DIN 914",
    "ISO 4028": "DIN 915",
    "ISO 4029": "DIN 916",
    "ISO 7040": "DIN 982",
    "ISO 4161": "DIN 6923",
    "ISO 4034": "DIN 555",
    "ISO 4016": "DIN 601",
    "ISO 4018": "DIN 558",
}


def look_alike(part: Part, chance: Random) -> Spoilt | None:
    # DIN 931 and DIN 933 are held with the classes that they list; 9.8 is none of them.
    if (
        part.standard not in FORMER
        or part.property_class == "9.8"
        or part.coating not in ("", "zinc plated", "black", "plain")
    ):
        return None
    former = part.but(standard=FORMER[part.standard])
    return told(former, spelling.described(former, chance), "look-alike-standard")


def size_not_in_standard(part: Part, chance: Random) -> Spoilt | None:
    if part.inch or "washer" in part.kind or "x" in part.size:
        return None
    wrong = part.but(size=chance.choice(("M11", "M13", "M19", "M23", "M9.5")), pitch="")
    return Spoilt(spelling.described(wrong, chance), {"size-not-in-standard"}, "")


def pitch_not_in_standard(part: Part, chance: Random) -> Spoilt | None:
    if part.kind not in ("hex_bolt_fine", "hex_screw_fine", "hex_nut_fine", "thin_nut_fine"):
        return None
    pitch = chance.choice(("1.3", "1.6", "1.1"))
    wrong = part.but(size=f"{part.size.split('x')[0]}x{pitch}", pitch=pitch)
    return Spoilt(spelling.described(wrong, chance), {"pitch-not-in-standard"}, "")


def left_hand(part: Part, chance: Random) -> Spoilt | None:
    if part.inch or "washer" in part.kind:
        return None
    row = spelling.described(part, chance)
    row["description"] += chance.choice((" LH", " LEFT HAND", " LINKSGEWINDE", " PAS A GAUCHE", " ROSCA IZQUIERDA"))
    return Spoilt(row, {"left-hand-thread"}, "")


def words_contradict(part: Part, chance: Random) -> Spoilt | None:
    if part.inch or kind_of(part) not in ("bolt", "nut") or part.property_class.startswith("A"):
        return None
    thread = (
        ("COARSE THREAD", "REGELGEWINDE", "PAS GROS") if "x" in part.size else ("FINE THREAD", "FEINGEWINDE", "PAS FIN")
    )
    steel = () if part.property_class.endswith("H") else ("INOX", "ROSTFREI", "STAINLESS STEEL", "AISI 304")
    row = spelling.described(part, chance)
    row["description"] += f" {chance.choice((*thread, *steel))}"
    return told(part, row, "words-contradict")


def size_not_preferred(part: Part, chance: Random) -> Spoilt | None:
    found = _other_row(part, lambda row: row.get("preferred") == "no")
    if not found:
        return None
    other = chance.choice(found)
    return told(other, spelling.written(other, chance), "size-not-preferred")


def _other_row(part: Part, wanted: Callable[[Row], bool]) -> list[Part]:
    """Return the part in other sizes of its table, with a length and a class that are listed there."""
    folder, dimensions, classes = next((one[1], one[3], one[4]) for one in KINDS if one[0] == part.kind)
    found = []
    for row in facts.table(folder, dimensions):
        if part.inch or not wanted(row):
            continue
        d = Decimal(row["thread"].removeprefix("M").split("x")[0])
        fits = not part.length or Decimal(row.get("l_min", "8")) <= Decimal(part.length) <= Decimal(
            row.get("l_max", "40")
        )
        listed = any(
            one["property_class"] == part.property_class and Decimal(one["d_min"]) <= d <= Decimal(one["d_max"])
            for one in facts.table(folder, classes)
        )
        other = replace(part, size=row["thread"], d=d, pitch=row.get("pitch", ""), dimensions=tuple(row.items()))
        if fits and listed and has_room(other, part.coating):
            found.append(other)
    return found


def length_not_in_standard(part: Part, chance: Random) -> Spoilt | None:
    if "l_max" not in part.cells:
        return None
    longer = facts.lengths(str(Decimal(part.cells["l_max"]) + 1), "500")
    if not longer:
        return None
    wrong = part.but(length=chance.choice(longer[:4]))
    return told(wrong, spelling.written(wrong, chance), "length-not-in-standard")


def length_not_preferred(part: Part, chance: Random) -> Spoilt | None:
    if "l_max" not in part.cells or not part.length or Decimal(part.length) < 10:
        return None
    wrong = part.but(length=str(Decimal(part.length) + chance.choice((1, -1)) * Decimal(chance.choice(("1", "3")))))
    low, high = Decimal(part.cells["l_min"]), Decimal(part.cells["l_max"])
    if facts.lengths(wrong.length, wrong.length) or not low <= Decimal(wrong.length) <= high:
        return None
    return told(wrong, spelling.written(wrong, chance), "length-not-preferred")


def class_unknown(part: Part, chance: Random) -> Spoilt | None:
    if part.inch or kind_of(part) != "bolt" or part.kind.startswith("set_") or part.property_class.startswith("A"):
        return None
    wrong = part.but(property_class=chance.choice(("8.7", "9.9", "10.8", "11.9", "7.8")))
    return told(wrong, spelling.described(wrong, chance), "property-class-unknown") if _safe(wrong) else None


def class_not_in_standard(part: Part, chance: Random) -> Spoilt | None:
    other = {
        "hex_bolt": "12.9",
        "hex_screw": "12.9",
        "socket_cap": "9.8",
        "socket_csk": "5.8",
        "hex_bolt_fine": "9.8",
    }.get(part.kind)
    if other is None or part.property_class.startswith("A") or not 3 <= part.d <= 39:
        return None
    wrong = part.but(property_class=other)
    if not _safe(wrong):
        return None
    row = spelling.written(wrong, chance)
    while (
        part.standard.split()[1]
        not in f"{row.get('description', '')}{row.get('designation', '')}{row.get('standard', '')}"
    ):
        row = spelling.written(wrong, chance)
    return told(wrong, row, "property-class-not-in-standard")


def _safe(part: Part) -> bool:
    """No electroplating, so that a harder class calls for no caution."""
    return part.coating in ("", "black", "plain", "phosphated", "zinc flake")


def coating_unknown(part: Part, chance: Random) -> Spoilt | None:
    if part.coating:
        return None
    row = {
        **spelling.written(part, chance),
        "coating": chance.choice(("XYZ", "AS BEFORE", "COLOUR 7", "FINISH 12", "???")),
    }
    return told(part, row, "coating-unknown")


def coating_not_in_standard(part: Part, chance: Random) -> Spoilt | None:
    if part.coating or part.inch or kind_of(part) != "bolt" or part.property_class.startswith("A"):
        return None
    wrong = chance.choice(("Fe/Zn7", "Fe/Zn9", "flZn-500h", "flZn-300h", "A0K"))
    row = spelling.written(part, chance)
    row |= (
        {"coating": wrong}
        if chance.random() < 0.7
        else {"description": f"{row.get('description', '')} {wrong}".strip()}
    )
    return told(part, row, "coating-not-in-standard")


def coating_without_room(part: Part, chance: Random) -> Spoilt | None:
    """Bolts only: a galvanized nut is tapped afterwards, and plated into a nut the bolt's allowance has the room."""
    if part.coating or part.inch or part.property_class in HARD or part.property_class.startswith("A"):
        return None
    if kind_of(part) != "bolt":
        return None
    wrong = part.but(coating=chance.choice([one for one in THICKNESS if not has_room(part, one)] + ["tZn"]))
    # ISO 10684:2004, clause 1: coarse threads from M8.
    outside = wrong.coating == "tZn" and ("x" in part.size or part.d < 8)
    codes = ("coating-without-room", *(("coating-not-in-standard",) if outside else ()))
    return told(wrong, spelling.written(wrong, chance), *codes)


def embrittlement(part: Part, chance: Random) -> Spoilt | None:
    if part.coating or part.property_class not in HARD:
        return None
    wrong = part.but(coating=chance.choice(("zinc plated", "zinc plated", "zinc nickel")))
    return told(wrong, spelling.written(wrong, chance), "hydrogen-embrittlement")


def requirement_missing(part: Part, chance: Random) -> Spoilt | None:
    what = chance.choice(("class", "length", "standard"))
    if what == "class":
        wrong = part.but(property_class="")
        row = spelling.described(wrong, chance)
        if part.standard.split()[-1] not in row["description"] or part.inch:
            return None
        return told(wrong, row, "requirement-missing")
    if what == "length":
        if not part.length:
            return None
        wrong = part.but(length="")
        return Spoilt(spelling.described(wrong, chance), {"requirement-missing"}, "")
    if part.kind not in ("hex_bolt", "hex_screw") or part.coating:
        return None
    row = {"description": f"HEX BOLT {part.size}X{part.length} {part.property_class}"}
    return Spoilt(row, {"requirement-missing"}, "")


#: The lowest nut class for a bolt class: ISO 898-2:2012, Table 2.
_WEAK_NUTS = {"8.8": ("6", "5"), "10.9": ("8", "6"), "12.9": ("10", "8"), "9.8": ("8", "6")}


def pair_not_permitted(part: Part, chance: Random) -> Spoilt | None:
    if part.property_class not in _WEAK_NUTS or "x" in part.size or not 5 <= part.d <= 39 or kind_of(part) != "bolt":
        return None
    if part.kind in ("flange_bolt", "socket_csk"):
        return None
    size = part.size if chance.random() < 0.7 else ("M12" if part.size != "M12" else "M16")
    name = chance.choice(_WEAK_NUTS[part.property_class]) if size == part.size else "10"
    nut = f"ISO {'4034' if name == '5' else '4032'} - {size} - {name}"
    return told(part, {**spelling.written(part, chance), "mates_with": nut}, "pair-not-permitted")


def edition(part: Part, chance: Random) -> Spoilt | None:
    if part.inch or part.designated_coating:
        return None
    year = chance.choice(("1986", "1987", "1988", "1979"))
    row = {"description": part.canonical.replace(part.standard, f"{part.standard}:{year}", 1)} | _coated(part)
    if chance.random() < 0.4:
        row = {"description": spelling.name_of(part, "en", chance), "designation": row["description"]} | _coated(part)
    return told(part, row, "edition-not-held")


#: Editions that have been replaced since: two catalogues for ISO 7040, one for ISO 4033 and 8673, memory for the rest.
REPLACED = {
    **{"ISO 4014": "2011", "ISO 4017": "2014", "ISO 8765": "2011", "ISO 8676": "2011", "ISO 4032": "2012"},
    **{"ISO 4033": "2012", "ISO 8673": "2012", "ISO 7040": "2012", "ISO 7042": "2012"},
}


def replaced_edition(part: Part, chance: Random) -> Spoilt | None:
    if part.standard not in REPLACED or part.designated_coating:
        return None
    written = f"{part.standard}:{REPLACED[part.standard]}"
    row = {"description": part.canonical.replace(part.standard, written, 1)} | _coated(part)
    # The year of another standard says nothing of the product's.
    row["description"] += chance.choice(("", " EN 10204:2004", " ISO 3269:2019"))
    return told(part, row, "edition-superseded")


def pair_not_judged(part: Part, chance: Random) -> Spoilt | None:
    """The nut's class suits, but it is of a former standard; or no class of the nut is named."""
    suits = {"8.8": "8", "10.9": "10"}.get(part.property_class)
    if suits is None or part.kind not in ("hex_bolt", "hex_screw", "socket_cap") or not 5 <= part.d <= 39:
        return None
    nut = chance.choice((f"DIN 934 {part.size} {suits}", f"ISO 4032 - {part.size}", f"DIN 6924 {part.size} {suits}"))
    return told(part, {**spelling.written(part, chance), "mates_with": nut}, "pair-not-judged")


def figures_not_judged(part: Part, chance: Random) -> Spoilt | None:
    """A length of a nut, and the height of a nut of a bolt."""
    kind = kind_of(part)
    if kind == "washer":
        return None
    wrong = {"length": chance.choice(("20", "60"))} if kind == "nut" and not part.inch else {"nut_height": "8.4"}
    if kind == "nut" and part.inch:
        return None
    return told(part, {**spelling.written(part, chance), **wrong}, "figures-not-judged")


def coating_not_judged(part: Part, chance: Random) -> Spoilt | None:
    """The allowances of hot dip galvanized inch threads are in ASTM F2329 and A563, which are not held for them."""
    if part.coating or not part.inch or kind_of(part) != "bolt" or part.property_class in HARD:
        return None
    wrong = part.but(coating="tZn")
    return told(wrong, spelling.written(wrong, chance), "coating-not-judged")


#: Code -> the fault that must raise it. Duplicates need other rows: the generator makes them.
FAULTS: dict[str, Fault] = {
    "unreadable": unreadable,
    "cell-too-long": cell_too_long,
    "cells-do-not-fit": cells_do_not_fit,
    "value-unreadable": figure_faults.value_unreadable,
    "attribute-contradicts-description": contradiction,
    "words-contradict": words_contradict,
    "standard-unknown": standard_unknown,
    "look-alike-standard": look_alike,
    "size-not-in-standard": size_not_in_standard,
    "pitch-not-in-standard": pitch_not_in_standard,
    "left-hand-thread": left_hand,
    "size-not-preferred": size_not_preferred,
    "length-not-in-standard": length_not_in_standard,
    "length-not-preferred": length_not_preferred,
    "property-class-unknown": class_unknown,
    "property-class-not-in-standard": class_not_in_standard,
    "coating-unknown": coating_unknown,
    "coating-not-in-standard": coating_not_in_standard,
    "coating-without-room": coating_without_room,
    "hydrogen-embrittlement": embrittlement,
    "requirement-missing": requirement_missing,
    "dimension-outside-limits": figure_faults.dimension_outside,
    "mechanical-figure-wrong": figure_faults.figure_wrong,
    "unit-mix-up": figure_faults.unit_mix_up,
    "mass-implausible": figure_faults.mass_implausible,
    "pair-not-permitted": pair_not_permitted,
    "pair-not-judged": pair_not_judged,
    "figures-not-judged": figures_not_judged,
    "coating-not-judged": coating_not_judged,
    "edition-not-held": edition,
    "edition-superseded": replaced_edition,
}
