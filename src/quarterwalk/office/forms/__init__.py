"""Forms: whether what was typed is well-formed, and the words where it is not."""
