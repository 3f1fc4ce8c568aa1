"""A finished pattern's prose made into a draft of a source: what is said becomes keys and steps.

``passages`` cuts the text, ``figures`` finds the figures of the sizes in it, ``facts`` reads what
stands before the instructions, ``sentences`` and ``runs`` read these, ``write`` writes the source.
No number is ever guessed: what can't be read stays where it stood, in its own words, and is told.
"""
