"""The technical editor's work: checks over a planned and composed pattern, run before a build.

``keys`` is about what the keys of a source say, ``work`` about what is worked, ``lists`` about
tools and notions, ``texts`` about sentences. Here are what a check is made of, and what harms a
child.
"""
