"""The kinds of steps, one module each: its record, how it is worked, and its answers."""
