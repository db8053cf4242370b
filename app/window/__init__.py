"""The window that puts the rooms together."""
