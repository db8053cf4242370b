"""One room for each thing a user knows by name."""
