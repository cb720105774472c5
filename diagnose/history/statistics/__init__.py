"""Statistics for a few dozen batches: pure functions, numbers in and numbers out."""
