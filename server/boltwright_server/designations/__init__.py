"""Designations: text to the engines' types and back to canonical text. One grammar, in `designation.lark`."""

from .coating import parse_coating
from .product import ProductDesignation, named_class, parse_product
from .sizes import millimetres, parse_length, parse_size
from .thread import ThreadDesignation, names_thread, parse_thread

__all__ = [
    "ProductDesignation",
    "ThreadDesignation",
    "millimetres",
    "named_class",
    "names_thread",
    "parse_coating",
    "parse_length",
    "parse_product",
    "parse_size",
    "parse_thread",
]
