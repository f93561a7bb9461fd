"""Dimensions of bolts, screws, nuts: one engine a family, the tables decide."""

from .catalogue import PRODUCT_FAMILIES, dimensions, find_product, products
from .product import Product, ProductDimensions

__all__ = ["PRODUCT_FAMILIES", "Product", "ProductDimensions", "dimensions", "find_product", "products"]
