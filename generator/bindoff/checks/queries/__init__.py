"""What a technical editor could not confirm: sentences with a claim that no fact near them proves.

``listed.py`` reads every sentence; a module of doubts for each kind of claim is listed there.
"""
