"""What the bindings should do: lifts and cants, their margins, ranges, maps and trials."""
