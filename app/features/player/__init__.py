"""A stance in motion: one input swept between two values, or a movement through key postures."""
