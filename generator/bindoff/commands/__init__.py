"""The commands of ``bindoff``, one module each, loaded when called."""
