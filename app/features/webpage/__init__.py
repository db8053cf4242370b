"""Web page: the stance as one file that a student opens on a phone, and moves."""
