"""Look-ups, one module a resource."""
