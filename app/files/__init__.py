"""Bytes on disk: read with care, refused in words, written whole or not at all."""
