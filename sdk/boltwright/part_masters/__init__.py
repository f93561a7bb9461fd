"""Catalogues of part masters."""
