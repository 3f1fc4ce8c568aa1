"""Rows as knitters write them, put into the one form that the row language reads.

``rewrite`` is the way in, for rows that the strict grammar can't read. ``tables`` holds the words.
"""
