"""A made-up standard of a plant, written into a folder: high screws of a known family."""

from __future__ import annotations

from pathlib import Path

STANDARD = """\
id = "WN 4711"
edition = "3"
title = "Hexagon screws with a high head (made up)"
family = "hexagon_bolt"

[[product]]
grade = "A"
not_covered = ["Colour of the box: not judged."]

[[table]]
file = "sizes.csv"
printed_as = "Table 1"
content = "Dimensions"
unit = "mm"
key = ["thread"]
checked = "original"

[[table]]
file = "property_classes.csv"
printed_as = "Table 2"
content = "Classes"
unit = "mm"
key = ["property_class"]
text = ["property_class"]
ordered = false
checked = "original"
"""
SIZES = """\
thread,k_nom,k_min,k_max,s_max,s_min,e_min,l_min,l_max
M8,7.3,7.15,7.45,13.00,12.73,14.38,20,80
M10,8.4,8.22,8.58,16.00,15.73,17.77,20,100
"""
CLASSES = """\
property_class,d_min,d_max
8.8,8,10
10.9,8,10
"""


def write_standard(
    directory: Path, folder: str = "wn_4711_3", standard: str = STANDARD, sizes: str = SIZES, classes: str = CLASSES
) -> Path:
    """Write the folder and return the directory that `--standards` takes."""
    place = directory / folder
    place.mkdir()
    (place / "standard.toml").write_text(standard, encoding="utf-8")
    (place / "sizes.csv").write_text(sizes, encoding="utf-8")
    (place / "property_classes.csv").write_text(classes, encoding="utf-8")
    return directory
