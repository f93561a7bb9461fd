"""Stations of the line."""
