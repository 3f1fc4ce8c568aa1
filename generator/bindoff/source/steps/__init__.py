"""The kinds of steps, one module each: what may be written for it."""
