"""Dimensions of bolts, screws, nuts and washers: one engine, the tables of the standards decide."""

from .catalogue import dimensions, find_product, products, products_of
from .family import FAMILIES, Family
from .product import Product, ProductDimensions

__all__ = [
    "FAMILIES",
    "Family",
    "Product",
    "ProductDimensions",
    "dimensions",
    "find_product",
    "products",
    "products_of",
]
