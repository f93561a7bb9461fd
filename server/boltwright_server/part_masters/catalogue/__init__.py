"""A catalogue row by row: in, through the rooms below, and out."""
