"""The guide: every key with a line that works."""
