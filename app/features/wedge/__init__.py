"""Printed wedge: a wedge to print or to cut."""
