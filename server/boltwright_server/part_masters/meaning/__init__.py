"""What a row means: the requirement that its text and members name, and what contradicts."""
