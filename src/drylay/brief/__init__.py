"""What is wanted: nouns, reader, and everything that can be wrong with a brief."""
