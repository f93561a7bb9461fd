"""What every resource shares: bodies and queries in, problem documents, caching, presentation, metrics."""
