"""Lessons: predict, see, understand; shown on their own rider, and made by a coach."""
