"""Both legs in three dimensions, seen from any side."""
