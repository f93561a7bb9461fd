"""Stored dimensions, loads and masses held against the limits."""
