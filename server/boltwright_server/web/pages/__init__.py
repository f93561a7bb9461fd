"""What is no resource below /v1: health, metrics, the pages of /docs."""
