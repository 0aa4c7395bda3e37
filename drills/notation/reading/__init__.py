"""The parts of the reader of plain-text tab; ``drills.notation.reader`` is its door."""
