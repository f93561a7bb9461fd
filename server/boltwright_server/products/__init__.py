"""Dimensions of bolts, screws, nuts and washers: one engine, the tables of the standards decide."""

from .catalogue import dimensions, find_product, products, products_of
from .family import FAMILIES, Family
from .look_alikes import LookAlike, look_alike_in, look_alikes
from .product import Product, ProductDimensions
from .table_engine import dimensions_of_form, form_of

__all__ = [
    "FAMILIES",
    "Family",
    "LookAlike",
    "Product",
    "ProductDimensions",
    "dimensions",
    "dimensions_of_form",
    "find_product",
    "form_of",
    "look_alike_in",
    "look_alikes",
    "products",
    "products_of",
]
