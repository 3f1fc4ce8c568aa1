"""Drawings of techniques: what a hand does with the yarn, computed from how stitches are made."""
