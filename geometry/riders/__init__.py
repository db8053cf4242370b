"""Who rides: bodies estimated from one measure, measured again and again, and grown."""
