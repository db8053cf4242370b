"""Clips: a sweep or a movement as a file that moves, or as numbered pictures."""
