"""Board: how far the boots reach over the edge, and when they touch snow."""
