"""The ways in: command line, environment, display."""
