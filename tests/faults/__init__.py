"""Long runs against the parts that read what people type; run by a command, bounded, on this machine only."""
