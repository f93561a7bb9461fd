"""Designations: text to the engines' types and back to canonical text. One grammar, in `designation.lark`."""

from .coating import parse_coating
from .product import ProductDesignation, accepted, in_partner, named_class, parse_product, refuse_former
from .sizes import millimetres, parse_length, parse_size, size_in
from .thread import ThreadDesignation, names_thread, parse_thread

__all__ = [
    "ProductDesignation",
    "ThreadDesignation",
    "accepted",
    "in_partner",
    "millimetres",
    "named_class",
    "names_thread",
    "parse_coating",
    "parse_length",
    "parse_product",
    "parse_size",
    "parse_thread",
    "refuse_former",
    "size_in",
]
