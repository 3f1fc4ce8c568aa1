"""Stage 4: PDF, text, SVG and numbers. Each knows the tree; none knows knitting."""
