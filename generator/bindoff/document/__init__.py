"""Stage 3: the neutral document tree and the drawings in it, built from the plan."""
