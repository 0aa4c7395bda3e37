"""Technique signs: name them, find them, what the hands do, what is picked, what sounds, what is written wrongly."""
