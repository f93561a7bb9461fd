"""The version of the SDK and its command."""

__version__ = "0.1.0"
