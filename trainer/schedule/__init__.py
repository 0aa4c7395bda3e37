"""Memory of an item, grading, status, what comes next. Pure: no files, no clock, no screen."""
