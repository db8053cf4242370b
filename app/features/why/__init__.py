"""Why this number: each finding and each part of the answer with its reasoning."""
