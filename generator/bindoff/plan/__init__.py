"""Stage 2: the craft arithmetic. Pure functions of the source; no files, no prose."""
