"""Growing: last season beside today, and a forecast."""
