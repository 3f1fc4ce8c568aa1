"""Stage 1: read the pattern folder, place every value at its file:line:column, validate."""
