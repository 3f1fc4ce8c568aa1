"""The words of each kind of step, one module each."""
