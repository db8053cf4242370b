"""Trials: what was tried and felt, and what to try next."""
