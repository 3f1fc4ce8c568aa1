"""The row language: the trade's own notation read into a tree, and the stitches it knows.

``syntax`` is the tree, ``stitches`` the book of stitches, ``parse`` reads text, ``uses`` asks a
tree what it mentions. Only ``parse`` and its own helpers need the parser library.
"""
