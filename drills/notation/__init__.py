"""Tab itself: pitches, tunings, the score, and how it is drawn."""
