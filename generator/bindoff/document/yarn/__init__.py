"""Yarn as smooth curves: loops, fabric made of them, and which strand lies over which."""
