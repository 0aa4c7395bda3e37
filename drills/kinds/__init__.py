"""One module a family of drills."""
