"""Sliders, fields, rows and what else is turned, typed and pressed."""
