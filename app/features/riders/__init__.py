"""Riders: a folder of set-ups, one for each rider."""
