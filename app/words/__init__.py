"""Texts for people: language, units, sentences and reasons."""
