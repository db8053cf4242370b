"""Parts: sloped parts, their combinations, and the stances they reach."""
