"""The guide: every key, helper and row word, each with a line that works.

``topics`` says what it tells in which order, ``keys`` what each key is, ``pages`` makes it a
document, which the terminal shows as text and ``bindoff guide`` as a PDF.
"""
