"""Marks, type and paper, painted by Qt."""
