"""What can be asked: tab itself, and the questions about it."""
