"""Drafts from the texts of finished patterns."""
