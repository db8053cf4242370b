"""What to begin with: the lift and the cant of each binding, why, and how sure that is."""
