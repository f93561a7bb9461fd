"""Part masters: what people typed, read, checked against the standards, and handed back with findings."""
