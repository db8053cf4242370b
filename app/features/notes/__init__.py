"""Notes: the name of a set-up, and what is to be remembered."""
