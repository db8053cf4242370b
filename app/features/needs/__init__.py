"""What it needs: the lift and the cant of each binding."""
