"""What is worked: rows, charts, edges, pieces, and whether pieces meet."""
