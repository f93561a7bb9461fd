"""Text to what it says: words, sizes, classes, with the lexicon of five languages."""
