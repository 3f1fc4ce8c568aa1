"""Pages of markup from the neutral tree: one HTML file for a screen, and books for readers."""
