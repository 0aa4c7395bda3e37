"""The drills of time: bars and beats, note values, tapping."""
