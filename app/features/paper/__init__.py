"""Paper: pictures, fit sheets and printing."""
