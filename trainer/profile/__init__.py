"""One learner on disk: settings, the record, and what follows from it."""
