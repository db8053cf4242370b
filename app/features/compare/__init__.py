"""Compare: two set-ups over each other and side by side."""
