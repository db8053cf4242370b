"""The Qt side: shows what it is given, reports what was asked."""
