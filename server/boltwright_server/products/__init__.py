"""Dimensions of bolts, screws, nuts and washers: one engine, the tables of the standards decide."""

from .catalogue import dimensions, find_product, products, products_of
from .family import FAMILIES, Family
from .look_alikes import LookAlike, look_alike_in, look_alikes
from .product import Product, ProductDimensions

__all__ = [
    "FAMILIES",
    "Family",
    "LookAlike",
    "Product",
    "ProductDimensions",
    "dimensions",
    "find_product",
    "look_alike_in",
    "look_alikes",
    "products",
    "products_of",
]
