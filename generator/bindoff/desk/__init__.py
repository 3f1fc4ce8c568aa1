"""The desk: a page on this machine to write a pattern, see its pages and read what is found.

``workplace`` knows the folder and saves, ``proofs`` builds what is open without writing it,
``guard`` says which requests are let in, ``server`` answers them. The page itself is in ``web/``.
"""
