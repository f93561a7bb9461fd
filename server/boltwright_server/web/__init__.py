"""HTTP: the only layer that knows Flask and marshmallow."""
