"""Rows as knitters write them, put into the one form that the row language reads.

``read.read_row`` is the way in. A row that the strict grammar reads is never looked at here.
"""
