"""Differences between two versions in words that can be published, and as data."""
