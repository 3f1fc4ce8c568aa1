"""Photographs as files of the web."""

_PNG = b"\x89PNG\r\n\x1a\n"


def media_type(picture: bytes) -> str:
    """``image/png`` or ``image/jpeg``: a document holds no others.

    Source: W3C, PNG (Third Edition), 5.2, for the first bytes of a PNG file.
    """
    return "image/png" if picture.startswith(_PNG) else "image/jpeg"


def ending(picture: bytes) -> str:
    """The end of a file's name for it."""
    return "png" if picture.startswith(_PNG) else "jpg"
