"""What sentences say, held against the pattern or against each other.

A sentence that names a thing is judged in ``named``, one that tells a number in ``told``.
"""
