"""What a change of standard, edition or coating does to a row."""
