"""Tools and notions: what is listed is used, what is used is listed, and it does what it is for."""
